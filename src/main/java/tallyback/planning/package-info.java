/**
 * Plans that are made rather than written. {@link tallyback.planning.TearDownPlan} draws one from a
 * tear-down, {@link tallyback.planning.PastJobs} learns from past jobs, and {@link
 * tallyback.planning.PlanWriter} writes any plan as YAML. No input or output, no clock.
 */
@NullMarked
package tallyback.planning;

import org.jspecify.annotations.NullMarked;
