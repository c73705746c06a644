package tallyback.plan;

import java.util.List;
import java.util.Optional;

/**
 * What came of reading a plan file: a plan when there is no fault, and everything that was noticed.
 *
 * @param plan the plan; present exactly when {@code faults} is empty
 * @param faults all that must be put right, in the order of the file
 * @param warnings all that is worth a second look, in the order of the file
 * @param draft the plan as far as it could be read, for a lint that tells everything at once; what
 *     is wrong in the file is missing in it or stands as an amount without unit
 * @param places where everything in the draft stands
 */
public record PlanReading(
    Optional<Plan> plan,
    List<PlanFault> faults,
    List<PlanFault> warnings,
    Optional<Plan> draft,
    Places places) {

  /** Copies its lists. */
  public PlanReading {
    faults = List.copyOf(faults);
    warnings = List.copyOf(warnings);
    if (plan.isPresent() != faults.isEmpty()) {
      throw new IllegalArgumentException("a plan is there exactly when there is no fault");
    }
  }
}
