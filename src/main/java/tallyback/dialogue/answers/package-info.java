/**
 * What is answered to a question, aloud and in writing, from the plan and from what was noted so
 * far.
 *
 * <p>{@link tallyback.dialogue.answers.Answers} is the one way in. Every answer begins with its
 * subject, so that a misheard question shows. Aloud at most three of anything, then "and five
 * more", and no tolerances; in writing all of it. A figure comes from the plan or it is not given;
 * a verdict is never a bare yes.
 *
 * <p>All text is in {@code AnswerText}. No I/O, no clock; immutable, safe for any thread.
 */
@org.jspecify.annotations.NullMarked
package tallyback.dialogue.answers;
