/**
 * The log: what was noted, in order, never overwritten. {@code JobLog} is the port; the SQLite
 * adapter is behind a factory.
 */
@org.jspecify.annotations.NullMarked
package tallyback.log;
