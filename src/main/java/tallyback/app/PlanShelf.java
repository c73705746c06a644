package tallyback.app;

import java.io.IOException;
import java.io.InputStream;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.HashSet;
import java.util.HexFormat;
import java.util.List;
import java.util.Locale;
import java.util.Map;
import java.util.Optional;
import java.util.Set;
import java.util.stream.Stream;
import org.jspecify.annotations.Nullable;
import tallyback.plan.ManualGaps;
import tallyback.plan.Plan;
import tallyback.plan.PlanReader;

/**
 * The plans that can be opened, changed and kept without naming a file: those in a folder of the
 * user's, the one that was named at the start, and the starters that come with the program, which
 * can't be changed. A plan is known by a name that comes out of {@link #list}; no other file is
 * ever read or written.
 *
 * <p>Any thread; one at a time.
 */
public final class PlanShelf {

  /** The starters, as they lie in {@code seeds/}. */
  static final List<String> STARTERS =
      List.of(
          "engine-oil-and-filter",
          "cooling-system-renewal",
          "brake-pads-and-discs",
          "wheel-change",
          "timing-belt-and-water-pump",
          "gearbox-and-axle-oil",
          "battery-and-alternator",
          "suspension-strut",
          "valve-clearance-check",
          "small-engine-service",
          "hydraulic-hose",
          "outboard-impeller-and-gear-oil");

  private static final String SEEDS = "/tallyback/seeds/";
  private static final String SCHEMA = "plan.schema.json";
  private static final String GIVEN = "given";
  private static final String OWN = "own:";
  private static final String STARTER = "starter:";
  private static final int LONGEST_FILE_NAME = 60;

  /** A shelf of more is not shown whole. */
  static final int MOST = 500;

  private final Path folder;
  private final @Nullable Path given;
  private final Set<String> writtenHere = new HashSet<>();
  private final Map<Path, Seen> seen = new HashMap<>();

  /** Whose a plan is. */
  public enum Kind {
    /** The one named at the start. */
    GIVEN,
    /** In the user's folder. */
    OWN,
    /** One that comes with the program. */
    STARTER
  }

  /**
   * A plan in the list.
   *
   * @param id by which it is opened
   * @param kind whose it is
   * @param name what the job is called; the file's name while the plan can't be read
   * @param file the file's name
   * @param toEnter how many values it leaves to the manual
   */
  public record Card(String id, Kind kind, String name, String file, int toEnter) {}

  /**
   * A plan that was opened.
   *
   * @param card which one
   * @param text its text
   * @param hash by which it is known whether somebody else has changed it meanwhile
   */
  public record Opened(Card card, String text, String hash) {}

  /**
   * A plan that was kept.
   *
   * @param opened how it stands now
   * @param copy what stood there before, if it was kept
   */
  public record Kept(Opened opened, Optional<Path> copy) {}

  /** The file was changed by somebody else since it was opened. */
  public static final class ChangedMeanwhile extends RuntimeException {

    private static final long serialVersionUID = 1;

    ChangedMeanwhile(Path file) {
      super(
          file
              + ": was changed by somebody else since you opened it; keep yours under another name,"
              + " or open it anew");
    }
  }

  private record Seen(FileTime changed, long length, String name, int toEnter) {}

  /**
   * A shelf.
   *
   * @param folder the user's folder of plans; made when one is kept there first
   * @param given the plan that was named at the start, or null
   */
  public PlanShelf(Path folder, @Nullable Path given) {
    this.folder = folder;
    this.given = given;
  }

  /** The folder of the user's own plans. */
  public Path folder() {
    return folder;
  }

  /**
   * All plans there are: the one named, the user's own by name, the starters.
   *
   * @throws MachineFailed if the folder can't be read
   */
  public synchronized List<Card> list() {
    List<Card> all = new ArrayList<>();
    if (given != null && Files.exists(given)) {
      all.add(card(GIVEN, Kind.GIVEN, given));
    }
    own().stream()
        .map(file -> card(OWN + file.getFileName(), Kind.OWN, file))
        .sorted(Comparator.comparing((Card card) -> card.name().toLowerCase(Locale.ROOT)))
        .forEach(all::add);
    STARTERS.forEach(name -> all.add(starter(name)));
    return all;
  }

  private List<Path> own() {
    if (!Files.isDirectory(folder)) {
      return List.of();
    }
    try (Stream<Path> files = Files.list(folder)) {
      return files
          .filter(file -> file.getFileName().toString().matches("(?i)[^.].*\\.ya?ml"))
          .filter(file -> Files.isRegularFile(file) && !PlanFile.isCopy(file) && !isGiven(file))
          .sorted()
          .limit(MOST)
          .toList();
    } catch (IOException e) {
      throw unreadable(folder, e);
    }
  }

  private boolean isGiven(Path file) {
    return given != null && given.toAbsolutePath().normalize().equals(file.toAbsolutePath());
  }

  private Card card(String id, Kind kind, Path file) {
    Seen now;
    try {
      FileTime changed = Files.getLastModifiedTime(file);
      Seen before = seen.get(file);
      if (before != null
          && before.changed().equals(changed)
          && before.length() == Files.size(file)) {
        now = before;
      } else {
        String text = text(file);
        now = new Seen(changed, Files.size(file), name(file, text), ManualGaps.of(text).size());
        seen.put(file, now);
      }
    } catch (IOException | WrongUse e) {
      // It is shown all the same: whoever opens it is told what is wrong.
      now = new Seen(FileTime.fromMillis(0), 0, file.getFileName().toString(), 0);
    }
    return new Card(id, kind, now.name(), file.getFileName().toString(), now.toEnter());
  }

  private static String name(Path file, String text) {
    return PlanReader.read(file.toString(), text)
        .draft()
        .map(Plan::name)
        .filter(name -> !name.isBlank())
        .orElse(file.getFileName().toString());
  }

  private static Card starter(String name) {
    String text = seed(name);
    String called = PlanReader.read(name, text).plan().map(Plan::name).orElse(name);
    return new Card(
        STARTER + name, Kind.STARTER, called, name + ".yaml", ManualGaps.of(text).size());
  }

  private static String seed(String name) {
    return resource(name + ".yaml");
  }

  private static String resource(String name) {
    try (InputStream in = PlanShelf.class.getResourceAsStream(SEEDS + name)) {
      if (in == null) {
        throw new IllegalStateException(
            "the jar lacks " + SEEDS + name + ": build it again from a complete source tree");
      }
      return new String(in.readAllBytes(), StandardCharsets.UTF_8);
    } catch (IOException e) {
      throw new MachineFailed("the plans that come with the program can't be read", e);
    }
  }

  /** The schema of plans, JSON Schema 2020-12. */
  public static String schema() {
    return resource(SCHEMA);
  }

  /**
   * Opens a plan.
   *
   * @throws WrongUse if there is none of that name any more, or it is no text
   * @throws MachineFailed if it can't be read
   */
  public synchronized Opened open(String id) {
    if (id.startsWith(STARTER) && STARTERS.contains(id.substring(STARTER.length()))) {
      String name = id.substring(STARTER.length());
      String text = seed(name);
      return new Opened(starter(name), text, hash(text));
    }
    Path file = file(id);
    String text;
    try {
      text = text(file);
    } catch (IOException e) {
      throw unreadable(file, e);
    }
    return new Opened(card(id, id.equals(GIVEN) ? Kind.GIVEN : Kind.OWN, file), text, hash(text));
  }

  /** The file of a plan that can be changed; by the list, so that no other path gets in. */
  private Path file(String id) {
    if (id.equals(GIVEN) && given != null && Files.exists(given)) {
      return given;
    }
    return own().stream()
        .filter(file -> id.equals(OWN + file.getFileName()))
        .findFirst()
        .orElseThrow(
            () ->
                new WrongUse(
                    "there is no such plan any more; open one from the list, or keep what you have"
                        + " under a new name"));
  }

  /**
   * Keeps a changed plan where it was opened. What stood there is copied beside it first, unless it
   * was written from here.
   *
   * @param id which one
   * @param text its new text, right or not: nothing that was typed is turned away
   * @param hash of what was opened
   * @throws ChangedMeanwhile if somebody else has changed it since
   * @throws WrongUse if it can't be changed
   * @throws MachineFailed if it can't be written
   */
  public synchronized Kept keep(String id, String text, String hash) {
    if (id.startsWith(STARTER)) {
      throw new WrongUse("a starter stays as it is; keep yours under a name of its own");
    }
    requireNotTooLong(text);
    Path file = file(id);
    String before;
    try {
      before = text(file);
    } catch (IOException e) {
      throw unreadable(file, e);
    }
    if (!hash(before).equals(hash) && !before.equals(text)) {
      throw new ChangedMeanwhile(file);
    }
    Optional<Path> copy = PlanFile.write(file, text, !writtenHere.contains(hash(before)));
    writtenHere.add(hash(text));
    seen.remove(file);
    return new Kept(open(id), copy);
  }

  /**
   * Keeps a plan under a new name in the user's folder.
   *
   * @param name what to call it; the file's name is made of its letters and figures
   * @param text its text, right or not
   * @throws MachineFailed if it can't be written
   */
  public synchronized Kept keepNew(String name, String text) {
    requireNotTooLong(text);
    try {
      Files.createDirectories(folder);
      Path schema = folder.resolve(SCHEMA);
      if (!Files.exists(schema)) {
        Files.writeString(schema, schema());
      }
    } catch (IOException e) {
      throw new MachineFailed(
          folder + ": can't be written (" + e.getMessage() + "); check the folder and its space",
          e);
    }
    String base = fileName(name);
    Path file = folder.resolve(base + ".yaml");
    for (int number = 2; Files.exists(file); number++) {
      file = folder.resolve(base + "-" + number + ".yaml");
    }
    PlanFile.write(file, text);
    writtenHere.add(hash(text));
    return new Kept(open(OWN + file.getFileName()), Optional.empty());
  }

  private static String fileName(String name) {
    String plain =
        java.text.Normalizer.normalize(name, java.text.Normalizer.Form.NFD)
            .toLowerCase(Locale.ROOT)
            .replaceAll("\\p{M}", "")
            .replaceAll("[^a-z0-9]+", "-")
            .replaceAll("^-|-$", "");
    String cut = plain.substring(0, Math.min(plain.length(), LONGEST_FILE_NAME));
    return cut.isEmpty() ? "plan" : cut;
  }

  private static void requireNotTooLong(String text) {
    if (text.getBytes(StandardCharsets.UTF_8).length > PlanReader.LARGEST_BYTES) {
      throw new WrongUse(
          "the plan is longer than "
              + PlanReader.LARGEST_BYTES
              + " bytes, more than is read; split it into two jobs");
    }
  }

  private static String text(Path file) throws IOException {
    try (InputStream in = Files.newInputStream(file)) {
      byte[] bytes = in.readNBytes(PlanReader.LARGEST_BYTES + 1);
      if (bytes.length > PlanReader.LARGEST_BYTES) {
        throw new WrongUse(file + ": longer than " + PlanReader.LARGEST_BYTES + " bytes; no plan");
      }
      String text = new String(bytes, StandardCharsets.UTF_8);
      if (!java.util.Arrays.equals(text.getBytes(StandardCharsets.UTF_8), bytes)) {
        throw new WrongUse(
            file + ": expected text in UTF-8, found other bytes; save it as UTF-8 in its editor");
      }
      return text;
    }
  }

  private static MachineFailed unreadable(Path file, IOException e) {
    return new MachineFailed(
        file + ": can't be read (" + e.getMessage() + "); check the disk and who may read it", e);
  }

  private static String hash(String text) {
    try {
      MessageDigest digest = MessageDigest.getInstance("SHA-256");
      return HexFormat.of().formatHex(digest.digest(text.getBytes(StandardCharsets.UTF_8)));
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
