/**
 * What is thought about a plan before the job. {@link tallyback.planning.PlanLint} looks deeper
 * than the reader: torques that overload their thread ({@code Overload}), heads unusual for it
 * ({@code HeadSizes}), steps that don't add up ({@code StepSums}), names that sound alike when
 * spoken ({@code SoundsAlike}) or that nobody can pronounce ({@code Unsayable}). {@code LintText}
 * holds every sentence.
 *
 * <p>Plans that are made rather than written. {@link tallyback.planning.TearDownPlan} draws one
 * from a tear-down, {@link tallyback.planning.PastJobs} learns from past jobs, and {@link
 * tallyback.planning.PlanWriter} writes any plan as YAML. {@link tallyback.planning.Preparation}
 * says what to lay out. No input or output, no clock.
 */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;
