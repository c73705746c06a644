package tallyback.web;

import java.net.URLEncoder;
import java.nio.charset.StandardCharsets;
import java.util.List;

/** Where the pages about one job are: said here and nowhere else. */
final class JobLinks {

  /** The page of all jobs. */
  static final String ALL = "/jobs";

  /**
   * A link.
   *
   * @param says its words
   * @param path where it leads
   */
  record Link(String says, String path) {}

  private JobLinks() {}

  /** The pages about a job that there are. */
  static List<Link> of(String job) {
    return List.of(
        new Link(PageTexts.RECORD, record(job)),
        new Link(PageTexts.TIMELINE, timeline(job)),
        new Link(PageTexts.REVIEW, review(job)),
        new Link(PageTexts.TRENDS, ALL + "/trends?job=" + encoded(job)));
  }

  /** Its record. */
  static String record(String job) {
    return ALL + "/" + encoded(job) + "/record";
  }

  /** Its timeline. */
  static String timeline(String job) {
    return ALL + "/" + encoded(job) + "/timeline";
  }

  /** Where it is reviewed. */
  static String review(String job) {
    return ALL + "/" + encoded(job) + "/review";
  }

  /** As a part of an address: a blank is no plus there. */
  private static String encoded(String job) {
    return URLEncoder.encode(job, StandardCharsets.UTF_8).replace("+", "%20");
  }
}
