package tallyback.web;

import java.io.IOException;
import java.net.URI;
import java.net.http.HttpClient;
import java.net.http.HttpRequest;
import java.net.http.HttpResponse;
import java.nio.file.Path;
import java.time.InstantSource;
import java.time.ZoneOffset;
import java.util.List;
import java.util.UUID;
import org.jspecify.annotations.Nullable;
import tallyback.app.JobDesk;
import tallyback.app.LoadedPlan;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Source;

/** A server that listens, and its data file. */
record Served(Running running, Path data) implements AutoCloseable {

  /** Anna's page, at any free port, with nothing said aloud; of a job or, by null, the open one. */
  static PageServer.Settings settings(LoadedPlan plan, Path data, @Nullable String job) {
    return new PageServer.Settings(plan, data, job, null, 0, anna(), null);
  }

  /** Anna at a page, by the clock of this machine. */
  static JobDesk.Setting anna() {
    return new JobDesk.Setting("page", "anna", ZoneOffset.UTC, InstantSource.system());
  }

  static Served start(PageServer.Settings settings) {
    return new Served(Running.start(PageServer.open(settings, line -> {})), settings.data());
  }

  URI address() {
    return running.server().address();
  }

  List<Entry> said() {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return log.entries(log.choose(null).id()).stream()
          .filter(entry -> entry.source() != Source.TOOL)
          .toList();
    }
  }

  List<Entry> saidIn(UUID stream) {
    return said().stream().filter(entry -> entry.id().contains(stream.toString())).toList();
  }

  HttpResponse<String> get(String path) throws IOException, InterruptedException {
    return HttpClient.newHttpClient()
        .send(
            HttpRequest.newBuilder(address().resolve(path)).build(),
            HttpResponse.BodyHandlers.ofString());
  }

  @Override
  public void close() {
    running.close();
  }
}
