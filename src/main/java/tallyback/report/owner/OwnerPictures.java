package tallyback.report.owner;

import java.util.ArrayList;
import java.util.Base64;
import java.util.Comparator;
import java.util.HashSet;
import java.util.List;
import java.util.Set;
import tallyback.report.JobPicture;
import tallyback.report.JobPictures;
import tallyback.report.JobRecord;
import tallyback.report.owner.Form.Picture;

/** Which pictures of a job the owner of the machine gets to see. Stateless. */
public final class OwnerPictures {

  /** Three sheets; whoever wants more asks the workshop. */
  static final int MOST = 12;

  private OwnerPictures() {}

  /**
   * One of each photo mark by the marks' numbers, the first taken; then, by time, the first of each
   * step that has none yet, and those between steps.
   */
  public static List<Picture> of(JobRecord job) {
    return chosen(job).stream()
        .map(
            each ->
                new Picture(
                    "data:"
                        + JobRecord.PICTURE_TYPE
                        + ";base64,"
                        + Base64.getEncoder().encodeToString(each.bytes()),
                    each.words()))
        .toList();
  }

  static List<JobPicture> chosen(JobRecord job) {
    List<JobPicture> all = JobPictures.of(job);
    List<JobPicture> chosen = new ArrayList<>();
    Set<Integer> marks = new HashSet<>();
    Set<String> steps = new HashSet<>();
    all.stream()
        .filter(each -> each.photo() != null)
        .sorted(Comparator.comparing(each -> each.photo() == null ? 0 : each.photo()))
        .filter(each -> marks.add(each.photo() == null ? 0 : each.photo()))
        .forEach(
            each -> {
              chosen.add(each);
              steps.add(each.step());
            });
    all.stream()
        .filter(each -> each.photo() == null)
        .filter(each -> each.step().isEmpty() || steps.add(each.step()))
        .forEach(chosen::add);
    return chosen.subList(0, Math.min(MOST, chosen.size()));
  }
}
