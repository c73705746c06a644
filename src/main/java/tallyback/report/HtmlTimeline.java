package tallyback.report;

import java.nio.charset.StandardCharsets;
import java.security.MessageDigest;
import java.security.NoSuchAlgorithmException;
import java.util.Base64;
import java.util.Map;

/**
 * The timeline of a job as a page, alike in two forms: one that a server gives, which asks it for
 * data and sounds, and one file that holds everything and asks nobody for anything. Any thread may
 * use it.
 */
public final class HtmlTimeline {

  private static final String FOLDER = "timeline/";

  private HtmlTimeline() {}

  /** The page that asks its server for everything. */
  public static String served() {
    return HtmlRecord.resource(FOLDER + "timeline.html")
        .replace(
            "<!--style-->",
            "<link rel=\"icon\" href=\"/icon.svg\" type=\"image/svg+xml\">"
                + "<link rel=\"stylesheet\" href=\"/timeline.css\">")
        .replace("<!--script-->", "<script type=\"module\" src=\"/timeline.js\"></script>")
        .replace("<!--data-->", "");
  }

  /** The page's style. */
  public static String style() {
    return HtmlRecord.resource(FOLDER + "timeline.css");
  }

  /** The page's script. */
  public static String script() {
    return HtmlRecord.resource(FOLDER + "timeline.js");
  }

  /**
   * The page that holds everything.
   *
   * @param job the job with the sounds that are to be in it
   * @param silent why a sound is not in it, in words, by the hash that entries name
   */
  public static String page(JobRecord job, Map<String, String> silent) {
    String script = script();
    StringBuilder data = new StringBuilder();
    data.append("<script type=\"application/json\" id=\"data\">")
        .append(TimelineData.of(job).json())
        .append("</script>\n");
    job.sounds()
        .forEach(
            (hash, wav) ->
                data.append("<script type=\"text/plain\" id=\"sound-")
                    .append(hex(hash))
                    .append("\">")
                    .append(Base64.getEncoder().encodeToString(wav))
                    .append("</script>\n"));
    job.entries().stream()
        .filter(entry -> job.pictures().containsKey(entry.id()))
        .forEach(
            entry ->
                data.append("<script type=\"text/plain\" id=\"picture-")
                    .append(entry.seq())
                    .append("\">")
                    .append(Base64.getEncoder().encodeToString(job.pictures().get(entry.id())))
                    .append("</script>\n"));
    silent.forEach(
        (hash, why) ->
            data.append("<script type=\"text/plain\" id=\"silent-")
                .append(hex(hash))
                .append("\">")
                .append(SafeText.visible(why).replace("<", ""))
                .append("</script>\n"));
    String policy =
        "<meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none'; script-src '"
            + sha256(script)
            + "'; style-src 'unsafe-inline'; media-src blob:; img-src data:; base-uri 'none'; form-action"
            + " 'none'\">";
    return HtmlRecord.resource(FOLDER + "timeline.html")
        .replace("<!--style-->", policy + "<style>" + style() + "</style>")
        .replace("<!--data-->", data)
        .replace("<!--script-->", "<script type=\"module\">" + script + "</script>");
  }

  private static String hex(String hash) {
    if (!hash.matches("[0-9a-f]{64}")) {
      throw new IllegalArgumentException("expected a SHA-256, found " + hash);
    }
    return hash;
  }

  private static String sha256(String script) {
    try {
      byte[] hash =
          MessageDigest.getInstance("SHA-256").digest(script.getBytes(StandardCharsets.UTF_8));
      return "sha256-" + Base64.getEncoder().encodeToString(hash);
    } catch (NoSuchAlgorithmException e) {
      throw new IllegalStateException("every Java platform has SHA-256", e);
    }
  }
}
