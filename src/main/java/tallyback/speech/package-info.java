/**
 * Hearing: the port {@link tallyback.speech.Recogniser} turns a clip into readings with the scores
 * that asking back needs, {@link tallyback.speech.Doubt} decides what a hearing is worth, and
 * {@link tallyback.speech.CmuLexicon} knows how words sound. The adapter in {@code speech.sphinx}
 * is the only place that sees the recogniser library.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech;
