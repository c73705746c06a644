package tallyback.report;

import java.time.Instant;
import java.time.ZoneId;
import java.util.ArrayList;
import java.util.Comparator;
import java.util.HashMap;
import java.util.List;
import java.util.Map;
import tallyback.model.Entry;
import tallyback.model.Source;
import tallyback.model.Statement.PhotoMarked;
import tallyback.model.Statement.PictureTaken;
import tallyback.reconcile.Outcome.StepLine;

/** The pictures of a job, each with where it belongs. Stateless; any thread may use it. */
public final class JobPictures {

  private JobPictures() {}

  /** Those that stand and can be shown, by when they were taken. */
  public static List<JobPicture> of(JobRecord job) {
    ShopTime time = ShopTime.of(job);
    Map<Integer, Entry> marks = new HashMap<>();
    List<Entry> told = new ArrayList<>();
    List<Entry> taken = new ArrayList<>();
    for (Entry entry : job.outcome().standing()) {
      if (entry.statement() instanceof PictureTaken) {
        taken.add(entry);
        continue;
      }
      if (entry.statement() instanceof PhotoMarked mark) {
        // Beside a photo mark only its own picture may stand.
        if (mark.number() != null) {
          marks.put(mark.number(), entry);
        }
      } else if (entry.source() != Source.TOOL) {
        told.add(entry);
      }
    }
    told.sort(Comparator.comparing(Entry::happenedAt).thenComparingLong(Entry::seq));
    List<JobPicture> pictures = new ArrayList<>();
    for (Entry entry : taken) {
      byte[] bytes = job.pictures().get(entry.id());
      if (bytes != null && entry.statement() instanceof PictureTaken picture) {
        Entry mark = picture.photo() == null ? null : marks.get(picture.photo());
        String subject =
            mark != null && mark.statement() instanceof PhotoMarked said ? said.subject() : null;
        ZoneId zone = entry.zone();
        pictures.add(
            new JobPicture(
                entry,
                entry.happenedAt(),
                time.at(entry.happenedAt(), zone),
                mark == null ? null : picture.photo(),
                subject == null ? "" : job.plan().label(subject),
                step(job, entry.happenedAt()),
                mark != null ? mark : before(told, entry),
                bytes));
      }
    }
    pictures.sort(Comparator.comparing(JobPicture::at).thenComparing(each -> each.entry().seq()));
    return pictures;
  }

  /** The step that was under way, by its label; empty for none. */
  static String step(JobRecord job, Instant at) {
    StepLine step = job.outcome().stepAt(at);
    return step == null ? "" : step.label();
  }

  private static Entry before(List<Entry> told, Entry picture) {
    Entry last = picture;
    for (Entry entry : told) {
      if (entry.happenedAt().isAfter(picture.happenedAt())) {
        break;
      }
      last = entry;
    }
    return last;
  }
}
