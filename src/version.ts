/** The program's version, as package.json states it (a test holds them together). */
export const VERSION = "0.1.0";
