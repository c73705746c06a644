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
  @Mixin private NoiseOption noise = new NoiseOption();
  @Mixin private FilmOption film = new FilmOption();
  @Mixin private OwnerOption owner = new OwnerOption();

  SettingsCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    print(Setting.SECOND, second.set(data.usualFolder()));
    print(Setting.SECOND_MODEL, second.model(data.usualFolder()));
    print(Setting.LEARN_NOISE, noise.set(data.usualFolder()));
    print(Setting.FFMPEG, film.set(data.usualFolder()));
    print(Setting.PAPER, owner.paper(data.usualFolder()));
    print(Setting.UNITS, owner.units(data.usualFolder()));
    return ExitCode.CLEAR;
  }

  private void print(Setting setting, Setting.Set set) {
    console.out().println(setting.name() + " = " + set.value() + "  (" + set.origin() + ")");
  }
}
