/** Tests of the trade's formulas against published examples. */
@org.jspecify.annotations.NullMarked
package tallyback.trade;
