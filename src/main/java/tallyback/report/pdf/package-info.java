/** Pages on paper: the only place that sees the library for PDF. Loaded when one is written. */
@NullMarked
package tallyback.report.pdf;

import org.jspecify.annotations.NullMarked;
