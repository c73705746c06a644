package tallyback.export;

import java.util.List;
import java.util.Locale;
import java.util.stream.Collectors;

/**
 * A file of cues as the W3C describes it (WebVTT: The Web Video Text Tracks Format, W3C Candidate
 * Recommendation, 4 April 2019): times from the film's beginning, text in which nothing can be
 * taken for a tag, a time or the end of a cue.
 */
final class WebVtt {

  private WebVtt() {}

  /**
   * One cue.
   *
   * @param id what it is called; figures and hyphens
   * @param fromMs from the film's beginning
   * @param toMs later than that
   * @param lines plain text, one line each
   */
  record Cue(String id, long fromMs, long toMs, List<String> lines) {
    Cue {
      lines = List.copyOf(lines);
    }
  }

  static String text(String note, List<Cue> cues) {
    StringBuilder file = new StringBuilder("WEBVTT\n\nNOTE ").append(escaped(note)).append('\n');
    for (Cue cue : cues) {
      file.append('\n')
          .append(cue.id())
          .append('\n')
          .append(time(cue.fromMs()))
          .append(" --> ")
          .append(time(cue.toMs()))
          .append('\n')
          .append(cue.lines().stream().map(WebVtt::escaped).collect(Collectors.joining("\n")))
          .append('\n');
    }
    return file.toString();
  }

  /** {@code 01:02:03.450}; hours go on beyond 99. */
  static String time(long ms) {
    return String.format(
        Locale.ROOT,
        "%02d:%02d:%02d.%03d",
        ms / 3_600_000,
        ms / 60_000 % 60,
        ms / 1000 % 60,
        ms % 1000);
  }

  private static String escaped(String text) {
    String line = Line.of(text).strip();
    return line.isEmpty()
        ? "\u2013"
        : line.replace("&", "&amp;").replace("<", "&lt;").replace(">", "&gt;");
  }
}
