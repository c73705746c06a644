package tallyback.cli;

import java.time.format.DateTimeFormatter;
import java.util.List;
import java.util.Locale;
import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import tallyback.app.NoiseDiary;
import tallyback.app.SecondCheck;

/** {@code doctor}: is everything there that was set. */
@Command(
    name = "doctor",
    mixinStandardHelpOptions = true,
    description = {
      "Tries what was set, and says what is wrong and what to do.",
      "It looks at the second recogniser, and at the shop's noises that were learned. Ends with 1"
          + " when something is wrong."
    })
final class DoctorCommand implements Callable<Integer> {

  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("yyyy-MM-dd HH:mm", Locale.ROOT);

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private SecondOption second = new SecondOption();
  @Mixin private NoiseOption noise = new NoiseOption();

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
    Setting.Set learning = noise.set(data.usualFolder());
    console
        .out()
        .println(
            "noises of the shop "
                + learned(new NoiseDiary(data.usualFolder()).all(), learning.value())
                + "  ("
                + learning.origin()
                + ")");
    return fault.isEmpty() ? ExitCode.CLEAR : ExitCode.FINDINGS;
  }

  private String learned(List<NoiseDiary.Tried> tried, String onOrOff) {
    String how = onOrOff.equals(NoiseOption.ON) ? "are learned" : "are not learned";
    if (tried.isEmpty()) {
      return how + "; none so far";
    }
    NoiseDiary.Tried last = tried.get(tried.size() - 1);
    long used = tried.stream().filter(NoiseDiary.Tried::used).count();
    return String.format(
        Locale.ROOT,
        "%s; of the last %d tried %d helped; %s: %d of %d trial phrases right, before %d",
        how,
        tried.size(),
        used,
        DAY.format(last.at().atZone(console.zone())),
        last.after(),
        last.phrases(),
        last.before());
  }
}
