/** The version of what the JSON forms promise. Raised by one for a change that is not only additive. */
export const CONTRACT = 1;
