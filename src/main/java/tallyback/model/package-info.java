/**
 * What is said and measured, as immutable records: amounts with exact units, the kinds of statement
 * a mechanic makes, the entries they become, and the findings a reconciliation returns. Nothing
 * here does I/O, reads a clock or draws a random number.
 *
 * <p>Start with {@link tallyback.model.Amount} and {@link tallyback.model.Unit}, then {@link
 * tallyback.model.Statement} (what can be said), {@link tallyback.model.Entry} (a statement that
 * was noted) and {@link tallyback.model.Finding}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.model;
