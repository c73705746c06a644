// What pages show of texts that others wrote: nothing in them may steer a line or turn what stands beside them.

/** The text with a sign for each character that nobody could see, or that has writing run backwards. */
export const visible = (text) => String(text).replace(/[\p{Cc}\p{Cs}\p{Zl}\p{Zp}\u202A-\u202E\u2066-\u2069]/gu, (each) => (each === "\n" || each === "\t" ? each : "\uFFFD"));
