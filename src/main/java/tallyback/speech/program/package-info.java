/**
 * A program of the user's own as the second recogniser: started once, told of a WAV file in a line
 * on its standard input, it answers with a line of words on its standard output. Any recogniser can
 * be had that way, and none can take the tool down with it.
 */
@org.jspecify.annotations.NullMarked
package tallyback.speech.program;
