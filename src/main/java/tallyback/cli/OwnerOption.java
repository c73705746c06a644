package tallyback.cli;

import java.nio.file.Path;
import java.util.Arrays;
import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Option;
import tallyback.app.WrongUse;
import tallyback.report.owner.Form;
import tallyback.report.owner.Form.Paper;
import tallyback.report.owner.Form.Units;

/** In which form the owner of the machine wants his record. */
final class OwnerOption {

  @Option(
      names = "--paper",
      paramLabel = "a4|letter",
      description =
          "The sheets of the owner's record. Default: $$TALLYBACK_PAPER, else paper in settings.txt"
              + " of the home, else a4.")
  private @Nullable String paper;

  @Option(
      names = "--units",
      paramLabel = "metric|us",
      description =
          "The units of the owner's record; what was said in others stays in brackets. Default:"
              + " $$TALLYBACK_UNITS, else units in settings.txt of the home, else metric.")
  private @Nullable String units;

  /** True when one of them was given as a flag. */
  boolean given() {
    return paper != null || units != null;
  }

  /** What was set for the paper, and where. */
  Setting.Set paper(Path home) {
    return checked(
        Setting.PAPER, Setting.PAPER.value(paper, System.getenv(), home), Paper.values());
  }

  /** What was set for the units, and where. */
  Setting.Set units(Path home) {
    return checked(
        Setting.UNITS, Setting.UNITS.value(units, System.getenv(), home), Units.values());
  }

  /**
   * The form.
   *
   * @throws WrongUse if something else was set than there is
   */
  Form form(Path home) {
    return new Form(
        Paper.valueOf(paper(home).value().toUpperCase(Locale.ROOT)),
        Units.valueOf(units(home).value().toUpperCase(Locale.ROOT)),
        List.of());
  }

  private static Setting.Set checked(Setting setting, Setting.Set set, Enum<?>[] values) {
    List<String> words =
        Arrays.stream(values).map(each -> each.name().toLowerCase(Locale.ROOT)).toList();
    if (!words.contains(set.value())) {
      throw new WrongUse(
          setting.name()
              + " "
              + set.value()
              + " ("
              + set.origin()
              + "): expected "
              + words.stream().collect(Collectors.joining(" or ")));
    }
    return set;
  }
}
