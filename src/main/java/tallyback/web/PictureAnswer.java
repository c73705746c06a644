package tallyback.web;

import io.javalin.http.Context;
import java.nio.file.Path;
import java.util.Optional;
import tallyback.app.KeptPictures;
import tallyback.log.LogRefused;
import tallyback.report.JobRecord;

/** Gives a picture of a job: {@code GET /jobs/JOB/picture?entry=ID}. Any thread may use it. */
final class PictureAnswer {

  static final String PATH = "/jobs/{job}/picture";

  /** What an entry shows never changes; it may only be taken out of the log. */
  private static final String AN_HOUR = "private, max-age=3600";

  private final Path data;

  PictureAnswer(Path data) {
    this.data = data;
  }

  void give(Context context) {
    String entry = context.queryParam("entry");
    Optional<byte[]> picture =
        entry == null ? Optional.empty() : read(context.pathParam("job"), entry);
    if (picture.isEmpty()) {
      context.status(404).contentType("text/plain; charset=utf-8").result(PageTexts.NO_PICTURE);
      return;
    }
    context
        .contentType(JobRecord.PICTURE_TYPE)
        .header("Cache-Control", AN_HOUR)
        .result(picture.get());
  }

  private Optional<byte[]> read(String job, String entry) {
    try {
      return KeptPictures.one(data, job, entry);
    } catch (LogRefused gone) {
      return Optional.empty();
    }
  }
}
