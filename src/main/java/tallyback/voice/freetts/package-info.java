/** The voice of the FreeTTS library. */
@NullMarked
package tallyback.voice.freetts;

import org.jspecify.annotations.NullMarked;
