/**
 * What hearing learns of those who speak and of where they do: a voice that was taught ({@link
 * tallyback.speech.adapt.VoiceProfile}), from what was said of known words ({@link
 * tallyback.speech.adapt.Lesson}), with the port {@link tallyback.speech.adapt.TeachableRecogniser}
 * that learns it and listens with it; and how speech sounds in the noise of a shop, learned from
 * known speech mixed with it by a {@link tallyback.speech.adapt.NoiseLearner}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech.adapt;
