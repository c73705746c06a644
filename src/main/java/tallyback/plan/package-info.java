/**
 * The plan: the expected job. {@link tallyback.plan.Plan} is what everybody else sees; reading the
 * YAML or JSON file, with each fault at its file, line and field, stays in this package.
 */
@org.jspecify.annotations.NullMarked
package tallyback.plan;
