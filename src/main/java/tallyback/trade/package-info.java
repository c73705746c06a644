/**
 * Formulas of the trade, pure, each with its published source: how uncertainties combine ({@link
 * tallyback.trade.Uncertainty}) and which unit a torque may have been meant in ({@link
 * tallyback.trade.TorqueUnits}).
 *
 * <p>Floating point is used here only for uncertainties, which are known to two figures at best;
 * amounts stay exact.
 */
@org.jspecify.annotations.NullMarked
package tallyback.trade;
