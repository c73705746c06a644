/**
 * Formulas of the trade, pure, each with its published source and a test against printed values.
 *
 * <ul>
 *   <li>How uncertainties combine: {@link tallyback.trade.Uncertainty}.
 *   <li>Fluids: {@link tallyback.trade.Water}, {@link tallyback.trade.Glycol}, {@link
 *       tallyback.trade.LiquidVolume}, {@link tallyback.trade.Dilution}, {@link
 *       tallyback.trade.Saturation}.
 *   <li>Bolts: {@link tallyback.trade.TorqueUnits}, {@link tallyback.trade.ScrewThread}, {@link
 *       tallyback.trade.PropertyClass}, {@link tallyback.trade.Preload}, {@link
 *       tallyback.trade.PreloadScatter}, {@link tallyback.trade.Crowfoot}, {@link
 *       tallyback.trade.TorqueWrench}, {@link tallyback.trade.WidthAcrossFlats}.
 *   <li>From job to job: {@link tallyback.trade.ControlCharts}.
 * </ul>
 *
 * <p>Floating point is used only where what is computed is known to a few figures at best; amounts
 * stay exact. General mathematics comes from commons-math3, which the jar holds anyway.
 */
@org.jspecify.annotations.NullMarked
package tallyback.trade;
