package tallyback.cli;

import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Parameters;
import tallyback.app.WrongUse;
import tallyback.report.FindingsGuide;

/** {@code findings}: the guide to the kinds of finding. */
@Command(
    name = "findings",
    mixinStandardHelpOptions = true,
    description = "Explains what can be found wrong with a job, each by an example.")
final class FindingsCommand implements Callable<Integer> {

  private final Console console;

  @Parameters(
      arity = "0..1",
      paramLabel = "KIND",
      description = "One kind only, such as left-in-tray.")
  private @Nullable String kind;

  FindingsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    FindingsGuide guide = FindingsGuide.packed();
    if (kind == null) {
      console.out().print(guide.text());
      return ExitCode.CLEAR;
    }
    String asked = kind;
    console
        .out()
        .print(
            guide
                .about(asked)
                .orElseThrow(
                    () ->
                        new WrongUse(
                            List.of(
                                "no kind of finding is called \""
                                    + asked
                                    + "\"; there are: "
                                    + String.join(", ", guide.kinds())))));
    return ExitCode.CLEAR;
  }
}
