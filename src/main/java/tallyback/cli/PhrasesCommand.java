package tallyback.cli;

import java.nio.file.Path;
import java.util.Objects;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.LoadedPlan;
import tallyback.phrase.CardSection;

/** {@code phrases}: the phrase card of a plan. */
@Command(
    name = "phrases",
    mixinStandardHelpOptions = true,
    description = "Shows what can be said and typed in a job with this plan.")
final class PhrasesCommand implements Callable<Integer> {

  private final Console console;

  @Parameters(arity = "1", paramLabel = "PLAN", description = "A plan file, YAML or JSON.")
  private @Nullable Path plan;

  @Option(names = "--jsgf", description = "Print the whole grammar as one JSGF file instead.")
  private boolean jsgf;

  PhrasesCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    LoadedPlan loaded = LoadedPlan.of(Objects.requireNonNull(plan, "picocli asks for it"));
    if (jsgf) {
      console.out().print(loaded.grammar().toJsgf());
      return ExitCode.CLEAR;
    }
    for (CardSection section : loaded.grammar().card()) {
      console.out().println(section.topic());
      section.examples().forEach(phrase -> console.out().println("  " + phrase));
      console.out().println();
    }
    return ExitCode.CLEAR;
  }
}
