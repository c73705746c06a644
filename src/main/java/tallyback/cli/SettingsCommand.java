package tallyback.cli;

import java.util.concurrent.Callable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;

/** {@code settings}: what is set, and where. */
@Command(
    name = "settings",
    mixinStandardHelpOptions = true,
    description = {
      "Lists what can be set, its value, and where that was set.",
      "A flag goes before the environment, that before settings.txt in the home, that before the"
          + " default."
    })
final class SettingsCommand implements Callable<Integer> {

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private SecondOption second = new SecondOption();

  SettingsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    Setting.Set set = second.set(data.usualFolder());
    console.out().println(Setting.SECOND.name() + " = " + set.value() + "  (" + set.origin() + ")");
    return ExitCode.CLEAR;
  }
}
