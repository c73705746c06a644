/**
 * What the tool says aloud. Port {@link tallyback.voice.Voice}; {@code voice.freetts} is the only
 * place that sees the speech library.
 */
@NullMarked
package tallyback.voice;

import org.jspecify.annotations.NullMarked;
