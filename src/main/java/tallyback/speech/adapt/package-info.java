/**
 * A voice that was taught: what was learned of how it differs from the voices that the acoustic
 * model was made from ({@link tallyback.speech.adapt.VoiceProfile}), from what was said of known
 * words ({@link tallyback.speech.adapt.Lesson}), and the port {@link
 * tallyback.speech.adapt.TeachableRecogniser} that learns it and listens with it.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech.adapt;
