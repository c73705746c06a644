package tallyback.cli;

import java.nio.file.Path;
import java.util.ArrayList;
import java.util.List;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.KnownVoices;
import tallyback.app.LoadedPlan;
import tallyback.phrase.CardSection;
import tallyback.plan.Plan;
import tallyback.plan.Plan.FluidSystem;
import tallyback.plan.Plan.Item;
import tallyback.plan.Plan.Named;

/** {@code phrases}: the phrase card of a plan. */
@Command(
    name = "phrases",
    mixinStandardHelpOptions = true,
    description = "Shows what can be said and typed in a job with this plan.")
final class PhrasesCommand implements Callable<Integer> {

  private static final int LINE = 90;

  private final Console console;

  @Parameters(
      arity = "0..1",
      paramLabel = "PLAN",
      description = "A plan file, YAML or JSON. Default: what can be said without one.")
  private @Nullable Path plan;

  @Option(names = "--jsgf", description = "Print the whole grammar as one JSGF file instead.")
  private boolean jsgf;

  PhrasesCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    LoadedPlan loaded = LoadedPlan.forJob(plan, null, null, KnownVoices.none());
    if (jsgf) {
      console.out().print(loaded.grammar().toJsgf());
      return ExitCode.CLEAR;
    }
    for (CardSection section : loaded.grammar().card()) {
      console.out().println(section.topic());
      section.examples().forEach(phrase -> console.out().println("  " + phrase));
      console.out().println();
    }
    if (loaded.namesOnly()) {
      names(loaded.plan());
    }
    return ExitCode.CLEAR;
  }

  /** Without a plan nobody knows which names there are. */
  private void names(Plan plan) {
    names("Parts", plan.items().stream().filter(item -> !item.temporary()).toList());
    names("In for the job, out again", plan.items().stream().filter(Item::temporary).toList());
    names("Places", plan.places());
    for (FluidSystem system : plan.systems()) {
      List<Named> points = new ArrayList<>(system.drains());
      points.addAll(system.fills());
      points.addAll(system.marks());
      names(system.label(), points);
    }
  }

  private void names(String what, List<? extends Named> named) {
    console.out().println(what);
    StringBuilder line = new StringBuilder("  ");
    for (Named each : named) {
      String said = String.join(" or ", each.say());
      if (line.length() + said.length() > LINE) {
        console.out().println(line.toString().stripTrailing());
        line = new StringBuilder("  ");
      }
      line.append(said).append(each.equals(named.get(named.size() - 1)) ? "" : ", ");
    }
    console.out().println(line);
    console.out().println();
  }
}
