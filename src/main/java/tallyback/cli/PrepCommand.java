package tallyback.cli;

import java.nio.file.Path;
import java.util.concurrent.Callable;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.LoadedPlan;
import tallyback.app.Prepared;
import tallyback.app.WrongUse;

/** {@code prep}: the sheet to lay out by. */
@Command(
    name = "prep",
    mixinStandardHelpOptions = true,
    description = {
      "Lists what to lay out before a job: tools by size, torque wrenches, pans, fluids, new parts,"
          + " cautions, time, phrases.",
      "With --job, in the middle of one: what is still to get. Prints it, or writes a page for print"
          + " with --out."
    })
final class PrepCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private PageOption out = new PageOption();

  @Parameters(arity = "0..1", paramLabel = "PLAN", description = "A plan file, YAML or JSON.")
  private @Nullable Path plan;

  @Option(
      names = "--job",
      paramLabel = "ID",
      description = "A job of the data file that has begun; its own plan counts.")
  private @Nullable String job;

  PrepCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    out.requireUsable();
    Prepared prepared = prepared();
    out.give(console, to -> prepared.lines().forEach(to::println), prepared::page);
    return ExitCode.CLEAR;
  }

  private Prepared prepared() {
    Path named = plan;
    String begun = job;
    if (begun != null && named == null) {
      return Prepared.inJob(data.toRead(), begun);
    }
    if (begun != null || named == null) {
      throw new WrongUse("prep: expected a plan file, or --job and none; name one of them");
    }
    return Prepared.before(LoadedPlan.of(named), data.ifThere());
  }
}
