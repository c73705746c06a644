/**
 * Tallyback: a hands-free job log for mechanics. What came off must be tallied back on.
 *
 * <p>The packages below this one show the architecture; see DEVELOPERS.md for the map.
 */
@org.jspecify.annotations.NullMarked
package tallyback;
