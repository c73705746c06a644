package tallyback.app;

import com.fasterxml.jackson.databind.node.ArrayNode;
import com.fasterxml.jackson.databind.node.JsonNodeFactory;
import com.fasterxml.jackson.databind.node.ObjectNode;
import java.util.Locale;
import java.util.Optional;
import tallyback.log.JobRow;
import tallyback.log.JobsFound.Found;
import tallyback.log.JobsFound.Hit;

/**
 * A job of a list for other programs: one object, described by {@code
 * tallyback/schema/jobs.schema.json} in the jar. Stateless.
 */
public final class JobsJson {

  /** The schema number that each object carries. */
  public static final int SCHEMA = 1;

  private JobsJson() {}

  /** One job; its figures are left out when they aren't known. */
  public static ObjectNode of(Found found, Optional<JobHistory.Figures> figures) {
    JobRow job = found.job();
    ObjectNode node = JsonNodeFactory.instance.objectNode();
    node.put("schema", SCHEMA);
    node.put("job", job.id());
    node.put("state", job.state().name().toLowerCase(Locale.ROOT));
    node.put("plan", job.plan());
    node.put("planHash", job.planHash());
    node.put("machine", job.machine());
    node.put("serial", job.serial());
    node.put("owner", job.owner());
    node.put("openedAt", job.openedAt().toString());
    node.put("lastAt", job.lastAt().toString());
    node.put("zone", job.zone().getId());
    node.put("entries", job.entries());
    node.put("closings", job.closings());
    node.put("unread", job.unread());
    figures.ifPresent(
        known -> {
          node.put("workedSeconds", known.worked().toSeconds());
          node.putObject("findings")
              .put("stops", known.stops())
              .put("checks", known.checks())
              .put("notes", known.notes());
        });
    node.put("hits", found.hits());
    ArrayNode first = node.putArray("first");
    for (Hit hit : found.first()) {
      first
          .addObject()
          .put("seq", hit.seq())
          .put("at", hit.at().toString())
          .put("words", hit.words())
          .put("withdrawn", hit.withdrawn());
    }
    return node;
  }
}
