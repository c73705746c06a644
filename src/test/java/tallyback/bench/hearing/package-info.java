/**
 * The bench of hearing: how well entries are heard by set of speech, noise and signal-to-noise
 * ratio, how well utterances are cut out of noise, and how soon a result is there. Run by {@code
 * mvn -q -Pbench process-test-classes}; {@link tallyback.bench.hearing.HearingBench} and {@link
 * tallyback.bench.hearing.CutterBench} say how.
 *
 * <p>A {@code SpeechSet} is spoken by one voice or by the people of one folder; {@code Mixer} puts
 * noise on it; {@code Ear} hears it and says which {@code Outcome} that is; {@code HeardFile} keeps
 * every hearing, so that a run that was broken off goes on where it was; {@code Cell} counts;
 * {@code Tables} and {@code Curves} show the counts.
 */
@org.jspecify.annotations.NullMarked
package tallyback.bench.hearing;
