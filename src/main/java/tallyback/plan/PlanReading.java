package tallyback.plan;

import java.util.List;
import java.util.Optional;

/**
 * What came of reading a plan file: a plan when there is no fault, and everything that was noticed.
 *
 * @param plan the plan; present exactly when {@code faults} is empty
 * @param faults all that must be put right, in the order of the file
 * @param warnings all that is worth a second look, in the order of the file
 */
public record PlanReading(Optional<Plan> plan, List<PlanFault> faults, List<PlanFault> warnings) {

  /** Copies its lists. */
  public PlanReading {
    faults = List.copyOf(faults);
    warnings = List.copyOf(warnings);
    if (plan.isPresent() != faults.isEmpty()) {
      throw new IllegalArgumentException("a plan is there exactly when there is no fault");
    }
  }
}
