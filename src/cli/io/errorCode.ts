/** The code of a failure of the system: `ENOENT`; empty for any other failure. */
export const systemCodeOf = (error: unknown): string =>
  typeof error === "object" && error !== null && "code" in error ? String(error.code) : "";
