/**
 * The record that the owner of the machine keeps: two pages in plain words, annexes behind them. In
 * and out by {@link tallyback.report.owner.OwnerRecord}. {@code PageMaker} says what stands where,
 * {@code PlainFindings} and {@code Unchecked} say it without the words of the trade, {@code
 * PlainAmounts} in the units that the owner knows. Nothing here judges: what is right or wrong
 * comes from the reconciler.
 */
@NullMarked
package tallyback.report.owner;

import org.jspecify.annotations.NullMarked;
