package tallyback.phrase;

/**
 * One rule of a grammar.
 *
 * @param name its name without the angle brackets
 * @param isPublic whether it may be listened for by itself
 * @param expansion what it stands for
 * @param source the file it stands in
 * @param line the line of its name, counted from 1
 */
record JsgfRule(String name, boolean isPublic, Expansion expansion, String source, int line) {}
