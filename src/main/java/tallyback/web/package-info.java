/**
 * The page: a server on this machine that shows a job as it stands, takes sound from a browser and
 * plays there what is said aloud. {@link tallyback.web.PageServer} is the way in.
 *
 * <p>A page keeps its sound until it is told that nothing of it is wanted any more ({@code
 * PageSound}), so that nothing is lost or noted twice when it is reloaded, loses its connection, or
 * this server is started again. Frame format, messages and element ids stand in DEVELOPERS.md.
 */
@org.jspecify.annotations.NullMarked
package tallyback.web;
