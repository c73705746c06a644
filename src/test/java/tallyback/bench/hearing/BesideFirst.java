package tallyback.bench.hearing;

import java.io.IOException;
import java.io.PrintWriter;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.StandardOpenOption;
import java.util.ArrayList;
import java.util.HashMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.TreeSet;
import java.util.function.Consumer;
import java.util.function.Function;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.audio.Clip;
import tallyback.speech.ByTrust;
import tallyback.speech.Judgement;
import tallyback.speech.SecondFailed;
import tallyback.speech.SecondKind;
import tallyback.speech.SecondRecogniser;
import tallyback.speech.TwoOpinions;
import tallyback.speech.program.ProgramRecognisers;

/**
 * A second recogniser on the very clips that the first one heard, and what becomes of them with and
 * without it: {@code second.md} in the folder {@code bench.out}. What it printed is kept, a line
 * each, so that a run that was broken off goes on where it was. It is given all the time it wants.
 *
 * <p>One thread. Closing it ends the program.
 */
final class BesideFirst implements AutoCloseable {

  private static final int FIELDS = 7;

  private final BenchSettings settings;
  private final Language language;
  private final Map<String, Printed> known = new HashMap<>();
  private final List<Both> both = new ArrayList<>();
  private final @Nullable PrintWriter out;
  private @Nullable SecondRecogniser program;

  /** What the second one printed for a clip; how long it took; whether the clip is spoilt. */
  private record Printed(String text, long ms, boolean spoilt) {}

  /**
   * One clip, heard by both.
   *
   * @param heard what the first made of it
   * @param phrase what the second did
   * @param ms how long that took it, by the clock
   * @param together what became of it
   */
  record Both(Heard heard, Optional<List<String>> phrase, long ms, Outcome together) {}

  private BesideFirst(BenchSettings settings, Language language, @Nullable PrintWriter out) {
    this.settings = settings;
    this.language = language;
    this.out = out;
  }

  /** Ready to listen, if there is a second recogniser; the program is started when it is needed. */
  static BesideFirst open(BenchSettings settings, Language language, String fingerprint)
      throws IOException {
    if (settings.second().isEmpty()) {
      return new BesideFirst(settings, language, null);
    }
    Path file =
        settings
            .out()
            .resolve(
                String.format(
                    Locale.ROOT, "second-%s-%08x.tsv", fingerprint, settings.second().hashCode()));
    Files.createDirectories(settings.out());
    List<String> before = Files.exists(file) ? Files.readAllLines(file) : List.of();
    BesideFirst opened =
        new BesideFirst(
            settings,
            language,
            new PrintWriter(
                Files.newBufferedWriter(
                    file,
                    StandardCharsets.UTF_8,
                    StandardOpenOption.CREATE,
                    StandardOpenOption.APPEND)));
    before.forEach(opened::remember);
    return opened;
  }

  private void remember(String line) {
    String[] field = line.split("\t", -1);
    if (field.length == FIELDS) {
      known.put(
          String.join("\t", List.of(field).subList(0, 4)),
          new Printed(field[6], Long.parseLong(field[4]), Boolean.parseBoolean(field[5])));
    }
  }

  /** Has it listen to a clip that the first one has heard. */
  void hear(Heard heard, Utterance.Sound sound) throws IOException, InterruptedException {
    if (out == null) {
      return;
    }
    Printed printed = known.get(heard.key());
    if (printed == null) {
      printed = printed(sound.get());
      known.put(heard.key(), printed);
      out.println(
          heard.key()
              + "\t"
              + printed.ms()
              + "\t"
              + printed.spoilt()
              + "\t"
              + printed.text().replaceAll("\\p{Cntrl}", " "));
      out.flush();
    }
    both.add(both(heard, printed));
  }

  private Printed printed(Clip clip) throws InterruptedException {
    try {
      SecondRecogniser running = program;
      if (running == null) {
        running = ProgramRecognisers.open(settings.second(), language.examples().get());
        program = running;
      }
      long before = System.nanoTime();
      String text = running.hear(clip);
      return new Printed(text, (System.nanoTime() - before) / 1_000_000, clip.isSpoilt());
    } catch (SecondFailed e) {
      throw new IllegalArgumentException("bench.second: " + e.getMessage(), e);
    }
  }

  private Both both(Heard heard, Printed printed) {
    Optional<List<String>> phrase = language.printed().apply(printed.text());
    return new Both(
        heard,
        phrase,
        printed.ms(),
        together(heard, phrase, printed.spoilt(), settings.secondKind(), language));
  }

  /** What becomes of a clip that both have heard. */
  static Outcome together(
      Heard heard,
      Optional<List<String>> phrase,
      boolean spoilt,
      SecondKind kind,
      Language language) {
    Judgement first =
        switch (heard.outcome()) {
          case EXACT, NOTED_WRONG -> Judgement.NOTE;
          case ASKED_RIGHT, ASKED_WRONG -> Judgement.ASK;
          case REJECTED -> Judgement.REJECT;
        };
    if (first == Judgement.REJECT) {
      return Outcome.REJECTED;
    }
    TwoOpinions opinions =
        TwoOpinions.of(
            heard.readings().stream().map(each -> words(each.words())).toList(),
            first,
            !spoilt && ByTrust.defaults().isClearToTwo(heard.evidence(), kind),
            phrase,
            language.meaning());
    Object said = language.meaning().of(words(heard.said()));
    int rightAt =
        heard.said().isEmpty()
            ? -1
            : opinions.readings().stream().map(language.meaning()::of).toList().indexOf(said);
    if (opinions.judgement() == Judgement.NOTE) {
      return rightAt == 0 ? Outcome.EXACT : Outcome.NOTED_WRONG;
    }
    return rightAt >= 0 ? Outcome.ASKED_RIGHT : Outcome.ASKED_WRONG;
  }

  private static List<String> words(String line) {
    return List.of(line.split(" ", -1));
  }

  /** The table of all clips so far. */
  String table() {
    return table(both, language);
  }

  /** Writes the table, if there is a second recogniser. */
  void writeTable(Consumer<String> progress) throws IOException {
    if (out != null) {
      Path table = settings.out().resolve("second.md");
      Files.writeString(table, table());
      progress.accept("with and without the second recogniser: " + table.toAbsolutePath());
    }
  }

  /** Counts with 95 % intervals, by set and by ratio. */
  static String table(List<Both> both, Language language) {
    StringBuilder text =
        new StringBuilder(
            """
            | set, ratio | n | noted right, without | with | noted wrong, without | with \
            | asked, without | with | second: phrases | of them right | asked alone, agreed: right \
            | ms, median |
            | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- | --- |
            """);
    addRows(text, both, language, each -> each.heard().snr() + ", all");
    addRows(text, both, language, each -> each.heard().snr() + ", " + each.heard().set());
    return text.toString();
  }

  private static void addRows(
      StringBuilder text, List<Both> both, Language language, Function<Both, String> name) {
    for (String row : new TreeSet<>(both.stream().map(name).toList())) {
      List<Both> here = both.stream().filter(each -> name.apply(each).equals(row)).toList();
      List<Outcome> without = here.stream().map(each -> each.heard().outcome()).toList();
      List<Outcome> with = here.stream().map(Both::together).toList();
      List<Both> phrases = here.stream().filter(each -> each.phrase().isPresent()).toList();
      long right = phrases.stream().filter(each -> isRight(each, language)).count();
      text.append(
          String.join(
              " | ",
              "| " + row,
              Integer.toString(here.size()),
              share(without, Outcome.EXACT),
              share(with, Outcome.EXACT),
              share(without, Outcome.NOTED_WRONG),
              share(with, Outcome.NOTED_WRONG),
              share(without, Outcome.ASKED_RIGHT, Outcome.ASKED_WRONG),
              share(with, Outcome.ASKED_RIGHT, Outcome.ASKED_WRONG),
              new Share(phrases.size(), here.size()).percent(),
              new Share(right, phrases.size()).percent(),
              agreed(phrases, language).toString(),
              here.stream().mapToLong(Both::ms).sorted().skip(here.size() / 2).findFirst().orElse(0)
                  + " |\n"));
    }
  }

  /** Of what the first alone asked about and the second heard alike, how much is right. */
  private static Share agreed(List<Both> phrases, Language language) {
    List<Both> agreed =
        phrases.stream()
            .filter(
                each ->
                    each.heard().outcome() == Outcome.ASKED_RIGHT
                        || each.heard().outcome() == Outcome.ASKED_WRONG)
            .filter(
                each ->
                    language
                        .meaning()
                        .of(each.phrase().orElseThrow())
                        .equals(
                            language.meaning().of(words(each.heard().readings().get(0).words()))))
            .toList();
    return new Share(
        agreed.stream().filter(each -> each.heard().rightAt() == 0).count(), agreed.size());
  }

  private static boolean isRight(Both each, Language language) {
    return !each.heard().said().isEmpty()
        && language
            .meaning()
            .of(each.phrase().orElseThrow())
            .equals(language.meaning().of(words(each.heard().said())));
  }

  private static String share(List<Outcome> all, Outcome... wanted) {
    long count = all.stream().filter(each -> Stream.of(wanted).anyMatch(each::equals)).count();
    return count + " = " + new Share(count, all.size()).percent();
  }

  @Override
  public void close() {
    SecondRecogniser running = program;
    if (running != null) {
      running.close();
    }
    if (out != null) {
      out.close();
    }
  }
}
