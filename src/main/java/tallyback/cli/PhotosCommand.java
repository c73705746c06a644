package tallyback.cli;

import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.LocalDate;
import java.time.ZoneId;
import java.time.format.DateTimeFormatter;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.EnumMap;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Objects;
import java.util.concurrent.Callable;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import org.jspecify.annotations.Nullable;
import picocli.CommandLine.Command;
import picocli.CommandLine.Mixin;
import picocli.CommandLine.Option;
import picocli.CommandLine.Parameters;
import tallyback.app.CameraClock;
import tallyback.app.CameraClock.Fit;
import tallyback.app.CameraClock.Mark;
import tallyback.app.CameraClock.Pair;
import tallyback.app.JobDesk;
import tallyback.app.JobPhotos;
import tallyback.app.JobPhotos.Asked;
import tallyback.app.JobPhotos.LeftOut;
import tallyback.app.JobPhotos.Noted;
import tallyback.app.JobPhotos.Placed;
import tallyback.app.JobPhotos.Sight;
import tallyback.app.JobPhotos.Standing;
import tallyback.app.Offset;
import tallyback.app.WrongUse;
import tallyback.photo.PhotoFolder;
import tallyback.photo.PhotoRefused.Why;
import tallyback.report.JobWords;

/** {@code photos}: photos of a folder beside a job. */
@Command(
    name = "photos",
    mixinStandardHelpOptions = true,
    description = {
      "Puts the photos of a folder beside a job, by when they were taken. Of each one a reduced copy"
          + " is kept with the job, upright and without the place where it was taken; the photos"
          + " themselves are only read.",
      "A camera's clock is seldom right. Name one photo that belongs to a photo mark of the job"
          + " (--mark 3=IMG_0412.jpg), or say what to add to the camera's times (--offset +1h2m3s)."
          + " With neither, it says what would fit and notes nothing.",
      "A photo that is there already is not added again."
    })
final class PhotosCommand implements Callable<Integer> {

  private static final Pattern MARK = Pattern.compile("(\\d{1,4})=(.+)", Pattern.DOTALL);
  private static final DateTimeFormatter CLOCK =
      DateTimeFormatter.ofPattern("HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter DAY_CLOCK =
      DateTimeFormatter.ofPattern("uuuu-MM-dd HH:mm:ss", Locale.ROOT);
  private static final DateTimeFormatter DAY =
      DateTimeFormatter.ofPattern("EEEE d MMMM uuuu", Locale.ENGLISH);

  /** Of a kind of fault; the rest is counted. */
  private static final int MOST_NAMED = 5;

  private final Console console;
  @Mixin private DataOption data = new DataOption();
  @Mixin private JobOption job = new JobOption();

  @Parameters(
      arity = "0..1",
      paramLabel = "FOLDER",
      description = "The folder of the photos, looked through with the folders in it.")
  private @Nullable Path folder;

  @Option(
      names = "--mark",
      paramLabel = "NUMBER=PHOTO",
      description =
          "Which photo a photo mark of the job is, such as 3=IMG_0412.jpg; may be given more than"
              + " once.")
  private List<String> marks = new ArrayList<>();

  @Option(
      names = "--offset",
      paramLabel = "TIME",
      description =
          "What to add to the camera's times: +1h2m3s when its clock was slow by so much, -45s when"
              + " it was fast, 0 when it was right.")
  private @Nullable String offset;

  @Option(
      names = "--margin",
      paramLabel = "TIME",
      description =
          "How long before the first entry of a working day and after the last a photo may be taken"
              + " and still be the job's. Default: 10m.")
  private @Nullable String margin;

  @Option(names = "--look", description = "Only show what would go where.")
  private boolean look;

  @Option(
      names = "--move",
      description = "Move photos that are there at another time to the one they have now.")
  private boolean move;

  @Option(
      names = "--take-back",
      paramLabel = "PHOTO",
      description =
          "Take a picture of the job back, by the name of its photo: it stands in the log struck"
              + " out and in no record. Without FOLDER; may be given more than once.")
  private List<String> takenBack = new ArrayList<>();

  PhotosCommand(Console console) {
    this.console = console;
  }

  @Override
  public Integer call() {
    if (!takenBack.isEmpty()) {
      return takeBack();
    }
    if (folder == null) {
      throw new WrongUse("expected the folder of the photos, found none; name it");
    }
    Asked asked =
        new Asked(
            folder,
            offset == null ? null : time("--offset", offset),
            marks.stream().map(PhotosCommand::mark).toList(),
            margin == null ? JobPhotos.MARGIN : positive(time("--margin", margin)));
    Sight sight = JobPhotos.look(data.toRead(), job.id(), asked, this::progress);
    FilmOption.progressOver(console);
    if (!sight.settled()) {
      tellRefused(sight.refused());
      return ask(sight);
    }
    sight.notices().forEach(console.err()::println);
    tellClock(sight);
    tellPlaced(sight);
    tellLeftOut(sight);
    tellRefused(sight.refused());
    boolean open = !sight.refused().stream().allMatch(each -> each.why() == Why.NO_PHOTO);
    open |= !sight.timeless().isEmpty();
    if (look) {
      console.err().println("only looked: nothing was noted");
    } else {
      open |= !note(sight);
    }
    return open ? ExitCode.FINDINGS : ExitCode.CLEAR;
  }

  private int takeBack() {
    if (folder != null || look || move || offset != null || !marks.isEmpty()) {
      throw new WrongUse(
          "--take-back: expected no folder and nothing else; take it back by itself");
    }
    JobPhotos.TakenBack done =
        JobPhotos.takeBack(data.toGoOn(console), job.id(), takenBack, desk());
    console
        .out()
        .println(count(done.pictures(), "picture") + " of job " + done.job() + " taken back");
    return ExitCode.CLEAR;
  }

  private JobDesk.Setting desk() {
    return new JobDesk.Setting("terminal", "mechanic", console.zone(), console.clock());
  }

  private boolean note(Sight sight) {
    Noted noted = JobPhotos.note(data.toGoOn(console), sight, move, desk(), this::progress);
    FilmOption.progressOver(console);
    tellRefused(noted.refused());
    console
        .err()
        .println(
            count(noted.added(), "photo")
                + " added to job "
                + sight.job()
                + (noted.moved() == 0 ? "" : ", " + noted.moved() + " moved")
                + (sight.count(Standing.THERE) == 0
                    ? ""
                    : ", " + sight.count(Standing.THERE) + " there before")
                + "; the originals were not touched");
    return noted.refused().isEmpty();
  }

  // ---- when nobody said what the camera's clock is worth

  private int ask(Sight sight) {
    ZoneId zone = sight.zone();
    List<Pair> pairs = sight.fit().pairs();
    console
        .err()
        .println(
            "job "
                + sight.job()
                + " has "
                + count(pairs.size(), "photo mark")
                + ", so the camera's clock can be held against "
                + (pairs.size() == 1 ? "it" : "them")
                + "; as it stands, "
                + fits(sight.fit()));
    if (sight.proposals().isEmpty()) {
      pairs.forEach(pair -> console.out().println("  " + markLine(pair.mark(), zone)));
      console
          .err()
          .println(
              "nothing can be told from that: say which photo belongs to a photo mark, such as"
                  + " --mark "
                  + pairs.get(0).mark().number()
                  + "=PHOTO, or give --offset (--offset 0 if the camera's clock was right)");
    }
    for (Fit fit : sight.proposals()) {
      console.out().println("--offset " + Offset.text(fit.offset()) + ": " + fits(fit));
      fit.pairs().forEach(pair -> console.out().println("  " + pairLine(pair, zone)));
    }
    if (!sight.proposals().isEmpty()) {
      boolean several = sight.proposals().size() > 1;
      console
          .err()
          .println(
              (several
                      ? "these fit alike: look at the photos, then run it again with the right"
                          + " --offset"
                      : "that fits best: look whether these photos show it, then run it again with"
                          + " --offset "
                          + Offset.text(sight.proposals().get(0).offset()))
                  + ", or with --mark NUMBER=PHOTO for one you are sure of");
    }
    console.err().println("nothing was noted");
    return look ? ExitCode.CLEAR : ExitCode.WRONG_USE;
  }

  private static String fits(Fit fit) {
    return fit.matched()
        + " of "
        + count(fit.pairs().size(), "photo mark")
        + " "
        + (fit.matched() == 1 ? "has" : "have")
        + " a photo within "
        + CameraClock.NEAR.toSeconds()
        + " s";
  }

  private static String markLine(Mark mark, ZoneId zone) {
    return CLOCK.format(mark.at().atZone(zone))
        + "  photo "
        + mark.number()
        + (mark.of().isEmpty() ? "" : ", " + mark.of());
  }

  private static String pairLine(Pair pair, ZoneId zone) {
    Duration after = pair.after();
    String mark = markLine(pair.mark(), zone);
    if (pair.shot() == null || after == null) {
      return mark + ": no photo";
    }
    long seconds = after.abs().toSeconds();
    return mark
        + ": "
        + pair.shot().name()
        + ", "
        + (seconds == 0
            ? "at that second"
            : seconds + " s " + (after.isNegative() ? "before it was said" : "after it was said"));
  }

  // ---- what goes where

  private void tellClock(Sight sight) {
    List<Pair> pairs = sight.fit().pairs();
    String clock =
        sight.fit().offset().isZero()
            ? "the camera's clock is taken as right"
            : Offset.text(sight.fit().offset()) + " is added to the camera's times";
    if (pairs.isEmpty()) {
      console
          .err()
          .println(
              clock
                  + "; this job has no photo mark to hold it against, so look whether the times are"
                  + " right");
      return;
    }
    console.err().println(clock + "; " + fits(sight.fit()));
    for (Pair pair : pairs) {
      if (pair.shot() == null) {
        console.err().println("  " + pairLine(pair, sight.zone()));
      }
    }
  }

  private void tellPlaced(Sight sight) {
    JobWords words = JobWords.of(sight.checked().record(console.clock().instant(), null));
    LocalDate day = null;
    for (Placed each : sight.placed()) {
      LocalDate its = each.at().atZone(sight.zone()).toLocalDate();
      if (!its.equals(day)) {
        console.out().println(DAY.format(its));
        day = its;
      }
      Mark mark = each.mark();
      String where =
          mark == null
              ? words.stepAt(each.at())
              : "photo " + mark.number() + (mark.of().isEmpty() ? "" : ", " + mark.of());
      console
          .out()
          .println(
              "  "
                  + CLOCK.format(each.at().atZone(sight.zone()))
                  + "  "
                  + each.shown()
                  + (where.isEmpty() ? "" : "  (" + where + ")")
                  + remark(each, sight.zone()));
    }
    if (sight.placed().isEmpty()) {
      console.err().println("no photo falls within the time of job " + sight.job());
    }
  }

  private String remark(Placed each, ZoneId zone) {
    return switch (each.standing()) {
      case NEW -> "";
      case THERE -> "  there already";
      case TWICE -> "  the same photo under another name, left out";
      case ELSEWHERE ->
          "  there already at "
              + CLOCK.format(Objects.requireNonNull(each.before()).happenedAt().atZone(zone))
              + (move ? ", moved" : "; --move would move it");
    };
  }

  private void tellLeftOut(Sight sight) {
    List<LeftOut> out = sight.leftOut();
    if (!out.isEmpty()) {
      console
          .err()
          .println(
              count(out.size(), "photo")
                  + " taken at another time than the job "
                  + (out.size() == 1 ? "is" : "are")
                  + " left out: "
                  + listed(
                      out.stream().map(each -> each.shown() + when(each, sight.zone())).toList())
                  + "; if they belong to it, the camera's clock or --margin is not right");
    }
    List<LeftOut> timeless = sight.timeless();
    if (!timeless.isEmpty()) {
      console
          .err()
          .println(
              count(timeless.size(), "photo")
                  + " without a time of taking "
                  + (timeless.size() == 1 ? "is" : "are")
                  + " left out: "
                  + listed(timeless.stream().map(LeftOut::shown).toList())
                  + "; messengers and editors take it out, so copy them from the camera itself");
    }
  }

  private static String when(LeftOut each, ZoneId zone) {
    Instant at = each.at();
    return at == null ? "" : " (" + DAY_CLOCK.format(at.atZone(zone)) + ")";
  }

  private void tellRefused(List<PhotoFolder.Refused> refused) {
    Map<Why, List<PhotoFolder.Refused>> kinds = new EnumMap<>(Why.class);
    refused.forEach(each -> kinds.computeIfAbsent(each.why(), why -> new ArrayList<>()).add(each));
    kinds.forEach(
        (why, those) -> {
          if (why == Why.NO_PHOTO) {
            console
                .err()
                .println(
                    count(those.size(), "other file")
                        + " passed over: "
                        + listed(
                            those.stream().map(each -> JobPhotos.shown(each.name())).toList()));
            return;
          }
          those.stream()
              .sorted(Comparator.comparing(PhotoFolder.Refused::name))
              .limit(MOST_NAMED)
              .forEach(
                  each -> console.err().println(JobPhotos.shown(each.name()) + ": " + each.told()));
          if (those.size() > MOST_NAMED) {
            console.err().println("and " + (those.size() - MOST_NAMED) + " more like that");
          }
        });
  }

  // ---- words

  private static String listed(List<String> names) {
    int most = Math.min(MOST_NAMED, names.size());
    return String.join(", ", names.subList(0, most))
        + (names.size() > most ? " and " + (names.size() - most) + " more" : "");
  }

  private static String count(int number, String thing) {
    return number + " " + thing + (number == 1 ? "" : "s");
  }

  private void progress(String work, int done, int of) {
    if (done % 20 == 0 || of > 0) {
      FilmOption.progress(console, work + ": " + done + (of == 0 ? "" : " of " + of));
    }
  }

  private static JobPhotos.Said mark(String text) {
    Matcher part = MARK.matcher(text);
    if (!part.matches()) {
      throw new WrongUse(
          "--mark: expected a photo mark's number and the name of its photo, such as"
              + " 3=IMG_0412.jpg, found "
              + JobPhotos.shown(text)
              + "; give both");
    }
    return new JobPhotos.Said(Integer.parseInt(part.group(1)), part.group(2));
  }

  private static Duration time(String option, String text) {
    return Offset.read(text)
        .orElseThrow(
            () ->
                new WrongUse(
                    option
                        + ": expected a time such as +1h2m3s, 45s or 0, found "
                        + JobPhotos.shown(text)
                        + "; write days, hours, minutes and seconds as 1d2h3m4s"));
  }

  private static Duration positive(Duration margin) {
    if (margin.isNegative() || margin.compareTo(Duration.ofHours(12)) > 0) {
      throw new WrongUse("--margin: expected 0 to 12h, found another time; give one of those");
    }
    return margin;
  }
}
