/**
 * What hearing learns while it works: how speech sounds in the noise of a shop. It is learned from
 * sound whose words are known, mixed with that noise, by a {@link
 * tallyback.speech.adapt.NoiseLearner}, and used by a {@link tallyback.speech.Recogniser}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech.adapt;
