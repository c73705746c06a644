package tallyback.web;

import io.javalin.http.Context;
import java.io.IOException;
import java.io.InputStream;
import java.io.UncheckedIOException;
import java.util.List;
import java.util.Map;
import java.util.Objects;
import java.util.TreeMap;

/** The files of the page as they lie in the jar. Immutable. */
final class PageFiles {

  private static final String FOLDER = "/tallyback/page/";

  private static final Map<String, String> TYPES =
      Map.of(
          "html", "text/html; charset=utf-8",
          "css", "text/css; charset=utf-8",
          "js", "text/javascript; charset=utf-8",
          "svg", "image/svg+xml",
          "webmanifest", "application/manifest+json");

  /** Every one of them, by the path it is asked for. */
  private static final Map<String, String> PATHS =
      Map.ofEntries(
          Map.entry("/", "index.html"),
          Map.entry("/page.css", "page.css"),
          Map.entry("/page.js", "page.js"),
          Map.entry("/sound.js", "sound.js"),
          Map.entry("/store.js", "store.js"),
          Map.entry("/link.js", "link.js"),
          Map.entry("/texts.js", "texts.js"),
          Map.entry("/microphone.js", "microphone.js"),
          Map.entry("/offline.js", "offline.js"),
          Map.entry("/icon.svg", "icon.svg"),
          Map.entry("/tallyback.webmanifest", "tallyback.webmanifest"));

  /** What a device sees before it is paired. */
  private static final Map<String, String> TO_PAIR =
      Map.of("/pair", "pair.html", "/pair.js", "pair.js");

  /** What the pages about jobs and plans share. */
  private static final List<String> SHARED = List.of("ask.js", "visible.js");

  /** What the page of plans loads besides. */
  private static final List<String> OF_PLANS =
      List.of("plans.css", "plans.js", "plan-editor.js", "plan-texts.js", "plan-words.js");

  /** What the page of a review loads besides. */
  private static final List<String> OF_REVIEW =
      List.of("review.css", "review.js", "review-texts.js");

  /** What the page of jobs loads besides. */
  private static final List<String> OF_JOBS = List.of("jobs.css", "jobs.js", "jobs-texts.js");

  private final Map<String, PageFile> files = new TreeMap<>();

  /**
   * A file.
   *
   * @param type its media type
   * @param bytes what is in it
   */
  @SuppressWarnings("ArrayRecordComponent") // handed on, never compared
  record PageFile(String type, byte[] bytes) {

    /** As an answer. */
    void give(Context context) {
      context.contentType(type).result(bytes);
    }
  }

  PageFiles() {
    PATHS.forEach((path, name) -> files.put(path, read(name)));
  }

  /** One of them, by its own name. */
  static PageFile read(String name) {
    try (InputStream in = PageFiles.class.getResourceAsStream(FOLDER + name)) {
      byte[] bytes = Objects.requireNonNull(in, name).readAllBytes();
      String ending = name.substring(name.lastIndexOf('.') + 1);
      return new PageFile(Objects.requireNonNull(TYPES.get(ending), name), bytes);
    } catch (IOException e) {
      throw new UncheckedIOException(name, e);
    }
  }

  /** The files by the path they are asked for. */
  Map<String, PageFile> byPath() {
    return files;
  }

  /** The file asked for by a path. */
  PageFile at(String path) {
    return Objects.requireNonNull(files.get(path), path);
  }

  /** The files of the page of plans, by the path they are asked for. */
  Map<String, PageFile> ofPlans() {
    return byName(OF_PLANS);
  }

  /** The files that those pages share, likewise. */
  Map<String, PageFile> shared() {
    return byName(SHARED);
  }

  /** The files of the page of jobs, likewise; its style builds on that of plans. */
  Map<String, PageFile> ofJobs() {
    return byName(OF_JOBS);
  }

  private static Map<String, PageFile> byName(List<String> names) {
    Map<String, PageFile> byPath = new TreeMap<>();
    names.forEach(name -> byPath.put("/" + name, read(name)));
    return byPath;
  }

  /** The files of the page of a review, by the path they are asked for. */
  Map<String, PageFile> ofReview() {
    return byName(OF_REVIEW);
  }

  /** The files with which a device is paired, by the path they are asked for. */
  Map<String, PageFile> toPair() {
    Map<String, PageFile> pair = new TreeMap<>();
    TO_PAIR.forEach((path, name) -> pair.put(path, read(name)));
    return pair;
  }
}
