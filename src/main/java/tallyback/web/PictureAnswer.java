package tallyback.web;

import io.javalin.http.Context;
import java.nio.file.Path;
import java.util.Optional;
import java.util.function.Supplier;
import org.jspecify.annotations.Nullable;
import tallyback.app.KeptPictures;
import tallyback.log.LogRefused;
import tallyback.report.JobRecord;

/**
 * Gives a picture of the job that is noted now: {@code GET /picture?entry=ID}. Any thread may use
 * it.
 */
final class PictureAnswer {

  static final String PATH = "/picture";

  /** What an entry shows never changes; it may only be taken out of the log. */
  private static final String AN_HOUR = "private, max-age=3600";

  private final Path data;
  private final Supplier<@Nullable String> job;

  PictureAnswer(Path data, Supplier<@Nullable String> job) {
    this.data = data;
    this.job = job;
  }

  void give(Context context) {
    String entry = context.queryParam("entry");
    String now = job.get();
    Optional<byte[]> picture = entry == null || now == null ? Optional.empty() : read(now, entry);
    if (picture.isEmpty()) {
      context.status(404).contentType("text/plain; charset=utf-8").result(PageTexts.NO_PICTURE);
      return;
    }
    context
        .contentType(JobRecord.PICTURE_TYPE)
        .header("Cache-Control", AN_HOUR)
        .result(picture.get());
  }

  private Optional<byte[]> read(String now, String entry) {
    try {
      return KeptPictures.one(data, now, entry);
    } catch (LogRefused gone) {
      return Optional.empty();
    }
  }
}
