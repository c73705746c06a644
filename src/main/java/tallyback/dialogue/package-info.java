/**
 * From what was understood to what is noted: follow-ons, repairs, late statements, missing units,
 * questions and their answers.
 *
 * <p>{@link tallyback.dialogue.Dialogue} is the one way in while work goes on, {@link
 * tallyback.dialogue.ReadAlone} for words that are written long after it. One thread per job; it
 * owns no thread and reads no clock.
 */
@org.jspecify.annotations.NullMarked
package tallyback.dialogue;
