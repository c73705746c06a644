package tallyback.app;

import java.io.IOException;
import java.nio.file.Files;
import java.nio.file.Path;
import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.LinkedHashMap;
import java.util.LinkedHashSet;
import java.util.List;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import org.jspecify.annotations.Nullable;
import tallyback.app.CameraClock.Mark;
import tallyback.app.CameraClock.Shot;
import tallyback.log.Draft;
import tallyback.log.JobLog;
import tallyback.log.SoundClip;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Certainty;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.PictureTaken;
import tallyback.photo.CameraTime;
import tallyback.photo.PhotoFile;
import tallyback.photo.PhotoFolder;
import tallyback.photo.PhotoRefused;
import tallyback.photo.ReducedCopy;
import tallyback.report.SafeText;

/**
 * Puts photos beside a job by when they were taken: looked at first, then noted one by one, each
 * whole. Originals are only read.
 */
public final class JobPhotos {

  /** Long enough to walk around the machine before the first entry and after the last. */
  public static final Duration MARGIN = Duration.ofMinutes(10);

  /** More than anybody takes of one job; a record with more is slow to open. */
  static final int MOST_PICTURES = 1000;

  private static final int LONGEST_NAME = 255;

  private JobPhotos() {}

  /**
   * What is asked for.
   *
   * @param folder where the photos are
   * @param offset what to add to the camera's times; null when nobody knows
   * @param marks photo marks and the photos that they are, any number
   * @param margin how far beside working times a photo may be taken
   */
  public record Asked(Path folder, @Nullable Duration offset, List<Said> marks, Duration margin) {

    /** Copies the list. */
    public Asked {
      marks = List.copyOf(marks);
    }
  }

  /**
   * A photo mark and the photo that it is.
   *
   * @param number which photo mark
   * @param file name of the photo
   */
  public record Said(int number, String file) {}

  /** Told how far long work is. */
  public interface Progress {

    /** So many of so many are done; 0 of what nobody knows. */
    void told(String work, int done, int of);
  }

  /** How a photo stands to what the log holds already. */
  public enum Standing {
    /** It isn't there. */
    NEW,
    /** It is there, at that time. */
    THERE,
    /** It is there, at another time or with another mark. */
    ELSEWHERE,
    /** The folder holds the same photo under another name. */
    TWICE
  }

  /**
   * A photo within the job's time.
   *
   * @param photo the photo
   * @param shown its name, so that it can be shown anywhere
   * @param at when it was taken, by the clock put right
   * @param mark the photo mark it belongs to, or null
   * @param hash SHA-256 of the original
   * @param standing how it stands to the log
   * @param before the entry that holds it already, or null
   */
  public record Placed(
      PhotoFile photo,
      String shown,
      Instant at,
      @Nullable Mark mark,
      String hash,
      Standing standing,
      @Nullable Entry before) {}

  /**
   * A photo outside of the job's time, or without a time.
   *
   * @param shown its name, so that it can be shown anywhere
   * @param at when it was taken, by the clock put right; null when it doesn't say
   */
  public record LeftOut(String shown, @Nullable Instant at) {}

  /**
   * What would go where.
   *
   * @param checked the job as it stands
   * @param fit the offset and how the photo marks fit under it
   * @param settled whether that offset was given, or nothing speaks about it
   * @param proposals offsets that would fit, when none was given
   * @param placed the photos within the job's time, by time
   * @param leftOut those outside of it, by time
   * @param timeless those without a time
   * @param refused files that can't be used
   * @param notices what is to be known besides, one line each
   */
  public record Sight(
      CheckedJob checked,
      CameraClock.Fit fit,
      boolean settled,
      List<CameraClock.Fit> proposals,
      List<Placed> placed,
      List<LeftOut> leftOut,
      List<LeftOut> timeless,
      List<PhotoFolder.Refused> refused,
      List<String> notices) {

    /** The job. */
    public String job() {
      return checked.job();
    }

    /** The zone of the shop. */
    public ZoneId zone() {
      return checked.entries().get(0).zone();
    }

    /** How many stand so. */
    public long count(Standing standing) {
      return placed.stream().filter(each -> each.standing() == standing).count();
    }
  }

  /** Of which job how many pictures were taken back. */
  public record TakenBack(String job, int pictures) {}

  /** What was noted. */
  public record Noted(int added, int moved, List<PhotoFolder.Refused> refused) {}

  /**
   * Looks at the photos of a folder beside a job; nothing is written.
   *
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   * @throws WrongUse if there is no such folder or photo mark, or what is asked contradicts itself
   */
  public static Sight look(Path data, @Nullable String job, Asked asked, Progress progress) {
    CheckedJob checked = CheckedJob.read(data, job);
    ZoneId zone = checked.entries().get(0).zone();
    PhotoFolder folder = read(asked.folder(), progress);
    List<PhotoFile> timed = new ArrayList<>();
    List<LeftOut> timeless = new ArrayList<>();
    for (PhotoFile photo : folder.photos()) {
      if (photo.time() == null) {
        timeless.add(new LeftOut(shown(photo.name()), null));
      } else {
        timed.add(photo);
      }
    }
    List<Mark> marks = marks(checked);
    List<Shot> shots = timed.stream().map(photo -> shot(photo, zone)).toList();
    List<String> notices = new ArrayList<>();
    Duration offset = offset(asked, marks, folder.photos(), zone, notices);
    boolean settled = offset != null || marks.isEmpty();
    CameraClock.Fit fit = CameraClock.fit(marks, shots, offset == null ? Duration.ZERO : offset);
    List<CameraClock.Fit> proposals = settled ? List.of() : CameraClock.proposals(marks, shots);
    List<PhotoFolder.Refused> refused = new ArrayList<>(folder.refused());
    List<LeftOut> leftOut = new ArrayList<>();
    List<Placed> placed =
        settled
            ? placed(checked, asked, marks, timed, fit.offset(), leftOut, refused, progress)
            : List.of();
    return new Sight(checked, fit, settled, proposals, placed, leftOut, timeless, refused, notices);
  }

  private static PhotoFolder read(Path folder, Progress progress) {
    if (!Files.exists(folder)) {
      throw new WrongUse(folder + ": there is no such folder; name the one the photos lie in");
    }
    if (!Files.isDirectory(folder)) {
      throw new WrongUse(folder + ": expected a folder, found a file; name the folder it lies in");
    }
    try {
      return PhotoFolder.read(folder, done -> progress.told("looking at photos", done, 0));
    } catch (PhotoFolder.TooManyFiles e) {
      throw new WrongUse(
          folder
              + ": holds "
              + e.getMessage()
              + "; put the photos of the job into a folder of their own");
    } catch (IOException e) {
      throw new MachineFailed(
          folder + ": can't be read (" + e.getMessage() + "); check who may read it", e);
    }
  }

  /** The photo marks that stand in a job, by their numbers. */
  public static List<Mark> marks(CheckedJob checked) {
    List<Mark> marks = new ArrayList<>();
    for (Entry entry : checked.outcome().standing()) {
      if (entry.statement() instanceof PhotoMarked photo && photo.number() != null) {
        String of = photo.subject() == null ? "" : checked.plan().label(photo.subject());
        marks.add(new Mark(photo.number(), of, entry.happenedAt()));
      }
    }
    marks.sort(Comparator.comparingInt(Mark::number));
    return marks;
  }

  private static Shot shot(PhotoFile photo, ZoneId zone) {
    return new Shot(shown(photo.name()), time(photo).at(zone));
  }

  private static CameraTime time(PhotoFile photo) {
    CameraTime time = photo.time();
    if (time == null) {
      throw new IllegalArgumentException(photo.name() + " has no time");
    }
    return time;
  }

  // ---- by how much the camera's clock was off

  private static @Nullable Duration offset(
      Asked asked, List<Mark> marks, List<PhotoFile> photos, ZoneId zone, List<String> notices) {
    if (asked.marks().isEmpty()) {
      return asked.offset();
    }
    if (asked.offset() != null) {
      throw new WrongUse("expected --offset or --mark, found both; give the one you are sure of");
    }
    Duration first = null;
    Said by = asked.marks().get(0);
    for (Said said : asked.marks()) {
      Mark mark = mark(marks, said.number(), zone);
      PhotoFile photo = photo(photos, said.file());
      if (photo.time() == null) {
        throw new WrongUse(
            shown(said.file())
                + ": no time of taking is in it, so it tells nothing of the camera's clock; name a"
                + " photo that comes from the camera itself");
      }
      Duration offset = Duration.between(time(photo).at(zone), mark.at());
      if (first == null) {
        first = offset;
        continue;
      }
      Duration apart = offset.minus(first).abs();
      if (apart.compareTo(CameraClock.NEAR) > 0) {
        throw new WrongUse(
            "photo marks "
                + by.number()
                + " and "
                + said.number()
                + " contradict each other: by the first "
                + Offset.text(first)
                + " is to be added to the camera's times, by the other "
                + Offset.text(offset)
                + "; look which photo belongs to which and give only the one you are sure of");
      }
      notices.add(
          "photo mark "
              + said.number()
              + " is "
              + apart.toSeconds()
              + " s from where photo mark "
              + by.number()
              + " puts it; the first counts");
    }
    return first;
  }

  private static Mark mark(List<Mark> marks, int number, ZoneId zone) {
    return marks.stream()
        .filter(mark -> mark.number() == number)
        .findFirst()
        .orElseThrow(
            () ->
                new WrongUse(
                    "there is no photo mark "
                        + number
                        + " in this job; "
                        + (marks.isEmpty()
                            ? "it has none: say \"photo of the\" and what it shows when you take"
                                + " one, or give --offset"
                            : "it has " + told(marks, zone))));
  }

  private static String told(List<Mark> marks, ZoneId zone) {
    return String.join(
        ", ",
        marks.stream()
            .map(
                mark ->
                    mark.number()
                        + (mark.of().isEmpty() ? "" : " (" + mark.of() + ")")
                        + " at "
                        + java.time.format.DateTimeFormatter.ofPattern("HH:mm:ss")
                            .format(mark.at().atZone(zone)))
            .toList());
  }

  private static PhotoFile photo(List<PhotoFile> photos, String named) {
    List<PhotoFile> fit = photos.stream().filter(photo -> isNamed(photo, named)).toList();
    if (fit.size() == 1) {
      return fit.get(0);
    }
    throw new WrongUse(
        fit.isEmpty()
            ? shown(named)
                + ": there is no such photo in the folder that can be used; give its name as it"
                + " stands there"
            : severalTimes(shown(named), fit.stream().map(each -> shown(each.name())).toList()));
  }

  /** By its own name, with a folder before it or without, or by the whole path. */
  private static boolean isNamed(PhotoFile photo, String named) {
    String wanted = named.replace(java.io.File.separatorChar, '/');
    return photo.name().equals(wanted)
        || photo.name().endsWith("/" + wanted)
        || wanted.endsWith("/" + photo.name());
  }

  // ---- what goes where

  private static List<Placed> placed(
      CheckedJob checked,
      Asked asked,
      List<Mark> marks,
      List<PhotoFile> timed,
      Duration offset,
      List<LeftOut> leftOut,
      List<PhotoFolder.Refused> refused,
      Progress progress) {
    ZoneId zone = checked.entries().get(0).zone();
    WorkingTimes times = WorkingTimes.of(checked.entries());
    Map<PhotoFile, Instant> within = new HashMap<>();
    for (PhotoFile photo : timed) {
      Instant at = time(photo).at(zone).plus(offset);
      if (times.hold(at, asked.margin())) {
        within.put(photo, at);
      } else {
        leftOut.add(new LeftOut(shown(photo.name()), at));
      }
    }
    leftOut.sort(Comparator.comparing(each -> each.at() == null ? Instant.MIN : each.at()));
    if (within.size() > MOST_PICTURES) {
      throw new WrongUse(
          within.size()
              + " photos fall within job "
              + checked.job()
              + ", more than the "
              + MOST_PICTURES
              + " that are taken at a time; put those that show the job into a folder of their own");
    }
    List<PhotoFile> inOrder =
        within.keySet().stream()
            .sorted(
                Comparator.<PhotoFile, Instant>comparing(photo -> atOf(within, photo))
                    .thenComparing(PhotoFile::name))
            .toList();
    Map<String, Entry> there = there(checked);
    Map<String, PhotoFile> seen = new HashMap<>();
    List<Placed> placed = new ArrayList<>();
    for (PhotoFile photo : inOrder) {
      progress.told("reading", placed.size() + 1, inOrder.size());
      try {
        String hash = ReducedCopy.hashOf(photo);
        Instant at = atOf(within, photo);
        Mark mark =
            said(asked, marks, photo).or(() -> CameraClock.belongsTo(at, marks)).orElse(null);
        Entry before = there.get(hash);
        Standing standing =
            seen.putIfAbsent(hash, photo) != null
                ? Standing.TWICE
                : before == null
                    ? Standing.NEW
                    : isThere(before, at, mark) ? Standing.THERE : Standing.ELSEWHERE;
        placed.add(new Placed(photo, shown(photo.name()), at, mark, hash, standing, before));
      } catch (PhotoRefused e) {
        refused.add(new PhotoFolder.Refused(photo.name(), e.why(), e.told()));
      }
    }
    return placed;
  }

  private static Instant atOf(Map<PhotoFile, Instant> within, PhotoFile photo) {
    return within.getOrDefault(photo, Instant.EPOCH);
  }

  /** A photo that was named for a mark belongs to it, however far it is. */
  private static Optional<Mark> said(Asked asked, List<Mark> marks, PhotoFile photo) {
    return asked.marks().stream()
        .filter(said -> isNamed(photo, said.file()))
        .findFirst()
        .flatMap(said -> marks.stream().filter(mark -> mark.number() == said.number()).findFirst());
  }

  private static Map<String, Entry> there(CheckedJob checked) {
    Map<String, Entry> there = new HashMap<>();
    for (Entry entry : checked.outcome().standing()) {
      if (entry.statement() instanceof PictureTaken picture) {
        there.put(picture.originalHash(), entry);
      }
    }
    return there;
  }

  private static boolean isThere(Entry before, Instant at, @Nullable Mark mark) {
    Integer number = mark == null ? null : Integer.valueOf(mark.number());
    return before.happenedAt().toEpochMilli() == at.toEpochMilli()
        && before.statement() instanceof PictureTaken picture
        && java.util.Objects.equals(picture.photo(), number);
  }

  // ---- noting

  /**
   * Notes what isn't there yet.
   *
   * @param data the data file
   * @param sight what goes where
   * @param move whether photos that are there at another time are moved
   * @param setting who does it
   * @throws WrongUse if the job is closed
   */
  public static Noted note(
      Path data, Sight sight, boolean move, JobDesk.Setting setting, Progress progress) {
    requireOpen(sight.checked());
    List<Placed> wanted =
        sight.placed().stream()
            .filter(
                each ->
                    each.standing() == Standing.NEW
                        || (move && each.standing() == Standing.ELSEWHERE))
            .toList();
    List<PhotoFolder.Refused> refused = new ArrayList<>();
    int added = 0;
    int moved = 0;
    if (wanted.isEmpty()) {
      return new Noted(0, 0, refused);
    }
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      int done = 0;
      for (Placed each : wanted) {
        progress.told("noting", ++done, wanted.size());
        if (each.before() != null) {
          move(log, sight, each, each.before(), setting);
          moved++;
          continue;
        }
        try {
          byte[] copy = ReducedCopy.of(each.photo());
          Entry unused =
              log.append(
                  draft(
                      sight.checked(),
                      freeId(sight, each),
                      each.at(),
                      words(each),
                      statement(sight, each),
                      setting),
                  new SoundClip(copy));
          added++;
        } catch (PhotoRefused e) {
          refused.add(new PhotoFolder.Refused(each.photo().name(), e.why(), e.told()));
        }
      }
    }
    return new Noted(added, moved, refused);
  }

  private static void requireOpen(CheckedJob checked) {
    List<Entry> entries = checked.entries();
    if (entries.get(entries.size() - 1).statement() instanceof Statement.JobClosed) {
      throw new WrongUse(
          "job "
              + checked.job()
              + " is closed; begin a visit with 'visit --job "
              + checked.job()
              + " --why photos', run this again, and 'close' it once more");
    }
  }

  /**
   * Takes pictures of a job back: they stand in the log struck out, and in no record.
   *
   * @param data the data file
   * @param job the job; null for the only open one, else the newest
   * @param names names of their originals, with the folder before them or without
   * @param setting who does it
   * @throws WrongUse if one of them isn't there or is there several times, or the job is closed;
   *     then none is taken back
   */
  public static TakenBack takeBack(
      Path data, @Nullable String job, List<String> names, JobDesk.Setting setting) {
    CheckedJob checked = CheckedJob.read(data, job);
    requireOpen(checked);
    Set<Entry> targets = new LinkedHashSet<>();
    for (String name : names) {
      boolean unused = targets.add(pictureOf(checked, shown(name)));
    }
    try (JobLog log = SqliteLogs.openForWriting(data)) {
      for (Entry target : targets) {
        Instant now = setting.clock().instant();
        Entry unused =
            log.append(
                draft(
                    checked,
                    target.id() + "-taken-back-" + now.toEpochMilli(),
                    now,
                    "picture taken back",
                    new Statement.Undone(target.id()),
                    setting),
                null);
      }
    }
    return new TakenBack(checked.job(), targets.size());
  }

  private static Entry pictureOf(CheckedJob checked, String name) {
    Map<Entry, String> fit = new LinkedHashMap<>();
    for (Entry entry : checked.outcome().standing()) {
      if (entry.statement() instanceof PictureTaken picture
          && (picture.file().equals(name) || picture.file().endsWith("/" + name))) {
        fit.put(entry, picture.file());
        if (picture.file().equals(name)) {
          return entry;
        }
      }
    }
    if (fit.isEmpty()) {
      throw new WrongUse(
          name
              + ": job "
              + checked.job()
              + " has no picture of that name; 'export --out FILE.csv' lists them");
    }
    if (fit.size() > 1) {
      throw new WrongUse(severalTimes(name, List.copyOf(fit.values())));
    }
    return fit.keySet().iterator().next();
  }

  private static String severalTimes(String name, List<String> where) {
    return name
        + ": is there "
        + where.size()
        + " times; give the folder with it: "
        + String.join(", ", where);
  }

  private static void move(
      JobLog log, Sight sight, Placed each, Entry before, JobDesk.Setting setting) {
    long next = setting.clock().instant().toEpochMilli();
    if (!statement(sight, each).equals(before.statement())) {
      Entry unused =
          log.append(
              draft(
                  sight.checked(),
                  before.id() + "-put-right-" + next,
                  setting.clock().instant(),
                  "picture put right: " + each.shown(),
                  new Statement.Corrected(before.id(), statement(sight, each)),
                  setting),
              null);
    }
    if (before.happenedAt().toEpochMilli() == each.at().toEpochMilli()) {
      return;
    }
    Entry unused =
        log.append(
            draft(
                sight.checked(),
                before.id() + "-moved-" + next,
                setting.clock().instant(),
                "picture moved: " + each.shown(),
                new Statement.Retimed(before.id(), each.at()),
                setting),
            null);
  }

  /**
   * The same photo of the same job always has the same id, so that a retry notes it once; taken
   * back before, it gets a further one.
   */
  private static String freeId(Sight sight, Placed each) {
    String id = sight.job() + "-picture-" + each.hash().substring(0, 32);
    long taken =
        sight.checked().entries().stream()
            .filter(
                entry ->
                    entry.id().equals(id)
                        || entry.id().matches(java.util.regex.Pattern.quote(id) + "-\\d+"))
            .count();
    return taken == 0 ? id : id + "-" + (taken + 1);
  }

  private static Statement statement(Sight sight, Placed each) {
    Mark mark = each.mark();
    return new PictureTaken(
        each.shown(),
        each.hash(),
        time(each.photo()).text(),
        sight.fit().offset().toString(),
        each.photo().widthPixels(),
        each.photo().heightPixels(),
        mark == null ? null : mark.number());
  }

  private static String words(Placed each) {
    return "picture " + each.shown();
  }

  private static Draft draft(
      CheckedJob checked,
      String id,
      Instant at,
      String words,
      Statement statement,
      JobDesk.Setting setting) {
    return new Draft(
        id,
        checked.job(),
        at,
        setting.clock().instant(),
        checked.entries().get(0).zone(),
        "tallyback",
        setting.device(),
        Source.TOOL,
        Certainty.CONFIRMED,
        words,
        statement);
  }

  /** A file's name on one line, without anything that steers a screen or turns writing around. */
  public static String shown(String name) {
    String line = SafeText.visible(name).replace('\n', '\uFFFD').replace('\t', '\uFFFD');
    int points = line.codePointCount(0, line.length());
    return points <= LONGEST_NAME
        ? line
        : "\u2026" + line.substring(line.offsetByCodePoints(0, points - LONGEST_NAME + 1));
  }
}
