/**
 * Sound: {@link tallyback.audio.Clip}s of one utterance, reading and writing WAV, cutting
 * utterances out of a stream, and level. Everything inside the program is 16 kHz, mono, 16-bit
 * linear PCM; other rates are converted at the door.
 */
@org.jspecify.annotations.NullMarked
package tallyback.audio;
