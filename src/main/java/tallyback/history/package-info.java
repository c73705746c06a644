/**
 * Many jobs: two side by side ({@link tallyback.history.Comparison}), and what changes on one
 * machine from job to job ({@link tallyback.history.Trends}). Both are made of jobs that were
 * reconciled ({@link tallyback.history.ToldJob}); nothing is judged anew here.
 */
@org.jspecify.annotations.NullMarked
package tallyback.history;
