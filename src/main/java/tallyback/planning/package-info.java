/**
 * What is thought about a plan before the job. {@link tallyback.planning.PlanLint} looks deeper
 * than the reader: torques that overload their thread ({@code Overload}), heads unusual for it
 * ({@code HeadSizes}), steps that don't add up ({@code StepSums}), names that sound alike when
 * spoken ({@code SoundsAlike}) or that nobody can pronounce ({@code Unsayable}). {@code LintText}
 * holds every sentence.
 */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;
