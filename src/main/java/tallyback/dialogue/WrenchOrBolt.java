package tallyback.dialogue;

import java.util.Optional;
import tallyback.model.Statement;
import tallyback.model.Statement.Corrected;
import tallyback.model.Statement.Tightened;
import tallyback.model.Statement.TorqueAt;
import tallyback.plan.Plan;
import tallyback.plan.Plan.Adapter;
import tallyback.plan.Plan.Instrument;

/**
 * Whether a torque through an adapter is what the wrench shows or what reaches the bolt: the two
 * differ, so it is asked when neither speaker nor plan says it.
 */
final class WrenchOrBolt {

  private WrenchOrBolt() {}

  /** True when it has to be asked. */
  static boolean unsaid(Plan plan, Statement statement) {
    if (statement instanceof Corrected corrected) {
      return unsaid(plan, corrected.now());
    }
    if (!(statement instanceof Tightened told)
        || told.torque() == null
        || told.torqueAt() != null
        || told.wrench() == null) {
      return false;
    }
    Adapter adapter = plan.instrument(told.wrench()).map(Instrument::adapter).orElse(null);
    return adapter != null && adapter.changesTorque() && adapter.said() == null;
  }

  /** The statement with the answer; empty when it tells of no torque. */
  static Optional<Statement> said(Statement statement, TorqueAt at) {
    if (statement instanceof Corrected corrected) {
      return said(corrected.now(), at).map(now -> new Corrected(corrected.target(), now));
    }
    return statement instanceof Tightened told && told.torque() != null
        ? Optional.of(
            new Tightened(
                told.state(),
                told.item(),
                told.place(),
                told.thing(),
                told.count(),
                told.lump(),
                told.torque(),
                told.pass(),
                told.angle(),
                told.wrench(),
                at,
                told.order()))
        : Optional.empty();
  }
}
