/** Measurements, each a main class to be run by hand; none is a timed test. */
@org.jspecify.annotations.NullMarked
package tallyback.bench;
