/**
 * Measurements, each a main class to be run by hand; none is a timed test. What is measured of
 * hearing is in the package {@code hearing}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.bench;
