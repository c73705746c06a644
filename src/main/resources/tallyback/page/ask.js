// How pages ask the server: an answer is JSON, and what was refused says why, in lines under "says".

/** What a page shows in place of an answer. */
export class Refused extends Error {}

/**
 * @param away what is said when nothing comes back
 * @returns asks for a path, with what fetch takes besides, and gives the JSON of the answer
 */
export const asking = (away) => async (path, besides = {}) => {
  let answer;
  try {
    answer = await fetch(path, besides);
  } catch (e) {
    throw new Refused(away);
  }
  const said = await answer.json().catch(() => ({ says: [answer.statusText] }));
  if (!answer.ok) {
    throw new Refused((said.says || [answer.statusText]).join("\n"));
  }
  return said;
};
