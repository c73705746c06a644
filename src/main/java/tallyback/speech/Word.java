package tallyback.speech;

/**
 * One heard word.
 *
 * @param text the word as it stands in the grammar
 * @param startMs when it began, in milliseconds of the stream
 * @param endMs when it ended, in milliseconds of the stream
 * @param fit how much better the word explains its sound than an unbroken row of any phones would:
 *     natural log of the likelihood ratio, per second of the word. Well spoken words lie around 0
 *     and above, words put in the place of something else far below.
 */
public record Word(String text, long startMs, long endMs, double fit) {}
