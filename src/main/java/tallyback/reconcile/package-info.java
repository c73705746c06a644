/**
 * Compares the job as told with the job as planned. One way in, {@code Reconciler}; one way out,
 * {@link tallyback.reconcile.Outcome}. Pure functions: no I/O, no clock.
 */
@org.jspecify.annotations.NullMarked
package tallyback.reconcile;
