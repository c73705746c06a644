/**
 * The plan: the expected job. One way in: {@link tallyback.plan.PlanReader} turns a YAML or JSON
 * file into a {@link tallyback.plan.PlanReading}, which holds the {@link tallyback.plan.Plan} or
 * every {@link tallyback.plan.PlanFault} at its file, line and field. The format is published as
 * {@code tallyback/schema/plan.schema.json}.
 *
 * <p>Inside, text becomes YAML nodes ({@code YamlTree}, with the limits that keep a hostile file
 * harmless), nodes become sections that hand out their fields ({@code Section}), and {@code
 * PlanBuilder} makes the plan of them with {@code Naming}, {@code Tightening}, {@code Measuring}
 * and {@code AmountText}; {@code Names} checks ids and references; {@code Faults} holds every
 * sentence. To add a field: its record in {@code Plan}, its line in {@code PlanBuilder}, its entry
 * in the schema; the tests tell when one of the three is missing.
 */
@org.jspecify.annotations.NullMarked
package tallyback.plan;
