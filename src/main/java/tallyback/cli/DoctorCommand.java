package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.app.SecondCheck;

/** {@code doctor}: is everything there that was set. */
@Command(
    name = "doctor",
    mixinStandardHelpOptions = true,
    description = {
      "Tries what was set, and says what is wrong and what to do.",
      "So far it looks at the second recogniser. Ends with 1 when something is wrong."
    })
final class DoctorCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private SecondOption second = new SecondOption();

  DoctorCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Setting.Set set = second.set(data.usualFolder());
    String fault = set.value().equals(SecondOption.NONE) ? "" : SecondCheck.faultOf(set.value());
    String how =
        !fault.isEmpty()
            ? "doesn't hear: " + fault
            : set.value().equals(SecondOption.NONE) ? "none" : "answers";
    console.out().println("second recogniser  " + how + "  (" + set.origin() + ")");
    return fault.isEmpty() ? ExitCode.CLEAR : ExitCode.FINDINGS;
  }
}
