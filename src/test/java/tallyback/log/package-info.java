/** Checks of the log that hold for every adapter, and of the published JSON. */
@org.jspecify.annotations.NullMarked
package tallyback.log;
