package tallyback.cli;

import static org.junit.jupiter.api.Assertions.assertArrayEquals;
import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertFalse;
import static org.junit.jupiter.api.Assertions.assertTrue;

import java.awt.image.BufferedImage;
import java.io.ByteArrayOutputStream;
import java.io.IOException;
import java.nio.charset.StandardCharsets;
import java.nio.file.Files;
import java.nio.file.Path;
import java.nio.file.attribute.FileTime;
import java.time.Duration;
import java.util.ArrayList;
import java.util.Base64;
import java.util.List;
import java.util.Map;
import java.util.TreeMap;
import java.util.regex.Matcher;
import java.util.regex.Pattern;
import java.util.stream.Stream;
import javax.imageio.ImageIO;
import org.apache.pdfbox.Loader;
import org.apache.pdfbox.cos.COSName;
import org.apache.pdfbox.pdmodel.PDDocument;
import org.apache.pdfbox.pdmodel.PDPage;
import org.apache.pdfbox.pdmodel.graphics.image.PDImageXObject;
import org.junit.jupiter.api.BeforeAll;
import org.junit.jupiter.api.BeforeEach;
import org.junit.jupiter.api.Tag;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.api.io.TempDir;
import tallyback.log.LogReader;
import tallyback.log.sqlite.SqliteLogs;
import tallyback.model.Entry;
import tallyback.model.Statement.PictureTaken;
import tallyback.photo.Photos;
import tallyback.photo.Photos.Exif;
import tallyback.photo.ReducedCopyChecks;

/** Photos beside a job, from the folder to both records. */
class PhotosCommandTest {

  /** Made once, since reading the plan for each line takes its time; each test has a copy. */
  @TempDir private static Path made;

  @TempDir private Path folder;
  private Path data = Path.of("none");
  private Path photos = Path.of("none");

  @BeforeAll
  static void aJobWithTwoPhotoMarks() {
    Path data = made.resolve("jobs.tallyback");
    enter(data, "@2026-03-02T09:00:00Z engine cold");
    enter(data, "@2026-03-02T09:05:00Z drain coolant started");
    enter(data, "@2026-03-02T09:10:00Z photo of the splash guard");
    enter(data, "@2026-03-02T09:31:00Z two point one litres out of the block plug");
    enter(data, "@2026-03-02T10:20:00Z photo of the coolant pump");
    enter(data, "@2026-03-02T10:40:00Z five pump bolts off");
  }

  @BeforeEach
  void aCopyOfIt() throws IOException {
    data = Files.copy(made.resolve("jobs.tallyback"), folder.resolve("jobs.tallyback"));
    photos = Files.createDirectory(folder.resolve("camera"));
  }

  private static void enter(Path data, String line) {
    Ran ran = Ran.command("enter", "--plan", "demo-data/plan.yaml", "--data", data, line);
    assertEquals(0, ran.code(), ran.err());
  }

  private void photo(String name, String taken) throws IOException {
    Path file = photos.resolve(name);
    Files.createDirectories(file.getParent());
    // Each of another size, so that no two are the same file.
    int count = files().size();
    Photos.jpeg(file, 320 + 8 * count, 200, new Exif(taken, null, null, 6, true));
  }

  private List<Path> files() throws IOException {
    try (Stream<Path> all = Files.walk(photos)) {
      return all.filter(Files::isRegularFile).sorted().toList();
    }
  }

  private Ran run(Object... more) {
    List<Object> args = new ArrayList<>(List.of("photos", photos, "--data", data));
    args.addAll(List.of(more));
    return Ran.command(args.toArray());
  }

  private List<Entry> pictures() {
    try (LogReader log = SqliteLogs.openForReading(data)) {
      return log.entries("job-1").stream()
          .filter(entry -> entry.statement() instanceof PictureTaken)
          .toList();
    }
  }

  /** The camera was an hour, two minutes and three seconds fast. */
  private void threePhotos() throws IOException {
    photo("IMG_1.jpg", "2026:03:02 10:11:58");
    photo("IMG_2.jpg", "2026:03:02 10:40:03");
    photo("IMG_3.jpg", "2026:03:02 11:22:10");
  }

  @Test
  void withoutAnyWordOnTheClockItProposesAndNotesNothing() throws IOException {
    threePhotos();
    Ran ran = run();
    assertEquals(
        new Ran(
            2,
            Ran.lines(
                "--offset -1h2m4s: 2 of 2 photo marks have a photo within 60 s",
                "  09:10:00  photo 1, splash guard: IMG_1.jpg, 6 s before it was said",
                "  10:20:00  photo 2, coolant pump: IMG_3.jpg, 6 s after it was said"),
            Ran.lines(
                "job job-1 has 2 photo marks, so the camera's clock can be held against them; as it"
                    + " stands, 0 of 2 photo marks have a photo within 60 s",
                "that fits best: look whether these photos show it, then run it again with --offset"
                    + " -1h2m4s, or with --mark NUMBER=PHOTO for one you are sure of",
                "nothing was noted")),
        ran);
    assertEquals(List.of(), pictures());
  }

  @Test
  void byOneMarkAllFindTheirPlace() throws IOException {
    threePhotos();
    Ran ran = run("--mark", "1=IMG_1.jpg");
    assertEquals(
        new Ran(
            0,
            Ran.lines(
                "Monday 2 March 2026",
                "  09:10:00  IMG_1.jpg  (photo 1, splash guard)",
                "  09:38:05  IMG_2.jpg  (drain coolant)",
                "  10:20:12  IMG_3.jpg  (photo 2, coolant pump)"),
            Ran.lines(
                "-1h1m58s is added to the camera's times; 2 of 2 photo marks have a photo within 60"
                    + " s",
                "3 photos added to job job-1; the originals were not touched")),
        ran);
    Entry first = pictures().get(0);
    assertEquals("2026-03-02T09:10:00Z", first.happenedAt().toString());
    PictureTaken taken = (PictureTaken) first.statement();
    assertEquals("2026-03-02T10:11:58", taken.cameraTime());
    assertEquals("PT-1H-1M-58S", taken.clockOffset());
    assertEquals(1, taken.photo());
    assertEquals(320, taken.widthPixels());
    assertEquals(200, taken.heightPixels());
    assertEquals(0, Ran.command("verify", "--data", data).code());
  }

  @Test
  void lookingNotesNothing() throws IOException {
    threePhotos();
    Ran ran = run("--offset", "-1h2m3s", "--look");
    assertEquals(0, ran.code());
    assertTrue(ran.err().contains("only looked: nothing was noted"), ran.err());
    assertEquals(List.of(), pictures());
  }

  @Test
  void aSecondRunAddsNothingAndMovesOnlyWhenTold() throws IOException {
    threePhotos();
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    Files.move(photos.resolve("IMG_2.jpg"), photos.resolve("another name.jpg"));
    Ran again = run("--mark", "1=IMG_1.jpg");
    assertTrue(again.err().contains("0 photos added to job job-1, 3 there before"), again.err());
    assertEquals(3, pictures().size());
    Ran other = run("--offset", "-1h2m3s");
    assertTrue(
        other
            .out()
            .contains(
                "09:09:55  IMG_1.jpg  (photo 1, splash guard)  there already at"
                    + " 09:10:00; --move would move it"),
        other.out());
    assertEquals(3, pictures().size());
    Ran moved = run("--offset", "-1h2m3s", "--move");
    assertTrue(moved.err().contains("3 moved"), moved.err());
    assertEquals(3, pictures().size(), "moved, not added");
    Ran then = run("--offset", "-1h2m3s");
    assertTrue(
        then.out().contains("09:09:55  IMG_1.jpg  (photo 1, splash guard)  there"), then.out());
    assertFalse(then.out().contains("--move"), then.out());
    assertEquals(0, Ran.command("verify", "--data", data).code());
  }

  @Test
  void whatWasTakenBackIsInNoRecordAndCanBeAddedAgain() throws IOException {
    threePhotos();
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    Path html = folder.resolve("record.html");
    assertEquals(
        new Ran(0, Ran.lines("1 picture of job job-1 taken back"), ""),
        Ran.command("photos", "--take-back", "IMG_2.jpg", "--data", data));
    assertEquals(0, Ran.command("report", "--data", data, "--out", html).code());
    assertEquals(2, shown(Files.readString(html)).size());
    assertEquals(
        Ran.failed(
            2,
            "IMG_2.jpg: job job-1 has no picture of that name; 'export --out FILE.csv' lists them"),
        Ran.command("photos", "--take-back", "IMG_2.jpg", "--data", data));
    assertTrue(run("--mark", "1=IMG_1.jpg").err().contains("1 photo added"), "once more");
    assertEquals(0, Ran.command("report", "--data", data, "--out", html).code());
    assertEquals(3, shown(Files.readString(html)).size());
    assertEquals(2, Ran.command("photos", "--data", data).code());
    assertEquals(0, Ran.command("verify", "--data", data).code());
  }

  @Test
  void ofTwoOfOneNameNoneIsTakenBackUntilItsFolderIsSaid() throws IOException {
    photo("a/IMG_1.jpg", "2026:03:02 10:11:58");
    photo("b/IMG_1.jpg", "2026:03:02 10:40:03");
    assertEquals(0, run("--offset", "-1h2m3s").code());
    assertEquals(2, pictures().size());
    assertEquals(
        Ran.failed(
            2, "IMG_1.jpg: is there 2 times; give the folder with it: a/IMG_1.jpg, b/IMG_1.jpg"),
        Ran.command("photos", "--take-back", "IMG_1.jpg", "--data", data));
    assertEquals(
        new Ran(0, Ran.lines("1 picture of job job-1 taken back"), ""),
        Ran.command(
            "photos", "--take-back", "b/IMG_1.jpg", "--take-back", "b/IMG_1.jpg", "--data", data));
  }

  @Test
  void theSamePhotoTwiceInTheFolderIsTakenOnce() throws IOException {
    threePhotos();
    Files.copy(photos.resolve("IMG_2.jpg"), photos.resolve("copy.jpg"));
    Ran ran = run("--mark", "1=IMG_1.jpg");
    assertTrue(ran.out().contains("the same photo under another name, left out"), ran.out());
    assertEquals(3, pictures().size());
  }

  @Test
  void photosOfAnotherTimeAreToldAndLeftOut() throws IOException {
    threePhotos();
    photo("supper.jpg", "2026:03:02 20:00:00");
    photo("walk around.jpg", "2026:03:02 09:53:00");
    Ran ran = run("--mark", "1=IMG_1.jpg");
    assertTrue(ran.out().contains("08:51:02  walk around.jpg"), ran.out());
    assertTrue(
        ran.err()
            .contains(
                "1 photo taken at another time than the job is left out: supper.jpg (2026-03-02"
                    + " 18:58:02); if they belong to it, the camera's clock or --margin is not"
                    + " right"),
        ran.err());
    assertEquals(4, pictures().size());
  }

  @Test
  void whatHappensOvernightIsNotTheJobs() throws IOException {
    enter(data, "@2026-03-02T17:00:00Z leaving for the night");
    enter(data, "@2026-03-03T08:00:00Z engine cold");
    photo("a.jpg", "2026:03:02 19:30:00");
    photo("b.jpg", "2026:03:03 07:55:00");
    Ran ran = run("--offset", "0");
    assertEquals(1, pictures().size(), ran.out() + ran.err());
    assertTrue(ran.err().contains("left out: a.jpg (2026-03-02 19:30:00)"), ran.err());
  }

  @Test
  void aJobWithoutPhotoMarksTakesTheClockAsRightAndSaysSo() throws IOException {
    Path other = folder.resolve("other.tallyback");
    assertEquals(
        0,
        Ran.command(
                "enter",
                "--plan",
                "demo-data/plan.yaml",
                "--data",
                other,
                "@2026-03-02T09:00:00Z engine cold")
            .code());
    photo("a.jpg", "2026:03:02 09:00:30");
    Ran ran = Ran.command("photos", photos, "--data", other);
    assertEquals(0, ran.code());
    assertTrue(
        ran.err()
            .contains(
                "the camera's clock is taken as right; this job has no photo mark to hold it"
                    + " against, so look whether the times are right"),
        ran.err());
  }

  @Test
  void whatContradictsItselfIsRefused() throws IOException {
    threePhotos();
    Ran ran = run("--mark", "1=IMG_1.jpg", "--mark", "2=IMG_2.jpg");
    assertEquals(
        Ran.failed(
            2,
            "photo marks 1 and 2 contradict each other: by the first -1h1m58s is to be added to the"
                + " camera's times, by the other -20m3s; look which photo belongs to which and give"
                + " only the one you are sure of"),
        ran);
    assertEquals(
        Ran.failed(
            2,
            "there is no photo mark 7 in this job; it has 1 (splash guard) at 09:10:00, 2 (coolant"
                + " pump) at 10:20:00"),
        run("--mark", "7=IMG_1.jpg"));
    assertEquals(
        Ran.failed(
            2,
            "gone.jpg: there is no such photo in the folder that can be used; give its name as it"
                + " stands there"),
        run("--mark", "1=gone.jpg"));
    assertEquals(
        Ran.failed(2, "expected --offset or --mark, found both; give the one you are sure of"),
        run("--mark", "1=IMG_1.jpg", "--offset", "0"));
    assertEquals(2, run("--mark", "one").code());
    assertEquals(2, run("--offset", "soon").code());
    assertEquals(2, run("--margin", "-1h", "--offset", "0").code());
    assertEquals(List.of(), pictures());
  }

  @Test
  void aFolderThatIsNoneIsRefused() throws IOException {
    Path gone = folder.resolve("gone");
    assertEquals(
        Ran.failed(2, gone + ": there is no such folder; name the one the photos lie in"),
        Ran.command("photos", gone, "--data", data));
    assertEquals(
        Ran.failed(2, data + ": expected a folder, found a file; name the folder it lies in"),
        Ran.command("photos", data, "--data", data));
    Ran empty = run("--offset", "0");
    assertEquals(0, empty.code());
    assertTrue(empty.err().contains("no photo falls within the time of job job-1"), empty.err());
  }

  @Test
  void aClosedJobAsksForAVisit() throws IOException {
    threePhotos();
    assertEquals(0, Ran.command("close", "--data", data, "--job", "job-1").code());
    Ran closed = run("--mark", "1=IMG_1.jpg");
    assertEquals(2, closed.code());
    assertTrue(
        closed
            .err()
            .contains(
                "job job-1 is closed; begin a visit with 'visit --job job-1 --why"
                    + " photos', run this again, and 'close' it once more"),
        closed.err());
    assertEquals(0, Ran.command("visit", "--data", data, "--job", "job-1").code());
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    assertEquals(3, pictures().size());
    assertEquals(0, Ran.command("close", "--data", data, "--job", "job-1").code());
    assertEquals(0, Ran.command("verify", "--data", data).code());
  }

  @Test
  void whatCantBeUsedIsToldAndTheRestIsNoted() throws IOException {
    threePhotos();
    photo("from a messenger.jpg", "0000:00:00 00:00:00");
    Files.write(photos.resolve("bomb.png"), Photos.png(60_000, 60_000, null));
    Files.writeString(photos.resolve("notes.txt"), "hello");
    byte[] whole = Files.readAllBytes(photos.resolve("IMG_2.jpg"));
    Files.write(photos.resolve("IMG_2.jpg"), java.util.Arrays.copyOf(whole, whole.length * 3 / 4));
    Ran ran = run("--mark", "1=IMG_1.jpg");
    assertEquals(1, ran.code());
    assertEquals(2, pictures().size());
    for (String told :
        List.of(
            "1 photo without a time of taking is left out: from a messenger.jpg; messengers and"
                + " editors take it out, so copy them from the camera itself",
            "1 other file passed over: notes.txt",
            "bomb.png: says that it has 60000 by 60000 pixels, more than can"
                + " be unpacked safely; export it smaller",
            "IMG_2.jpg: ends too early; copy it from the camera again",
            "2 photos added to job job-1")) {
      assertTrue(ran.err().contains(told), ran.err());
    }
  }

  @Test
  void namesOfEveryKindAreShownHarmlessly() throws IOException {
    String wild = "<script>alert(1)<\nb>\u001b[31m\u202Egpj & \"quoted\" '=1+1.jpg";
    photo(wild, "2026:03:02 09:10:05");
    photo("=cmd|' '!A0.jpg", "2026:03:02 09:31:30");
    Ran ran = run("--mark", "1=" + wild);
    assertEquals(0, ran.code(), ran.err());
    assertFalse(ran.out().contains("\u001b"), ran.out());
    assertFalse(ran.out().contains("\u202e"), ran.out());
    assertEquals(3, ran.outLines().size(), ran.out());
    Path html = folder.resolve("record.html");
    Path owner = folder.resolve("owner.html");
    Path csv = folder.resolve("job.csv");
    Path markdown = folder.resolve("job.md");
    Path json = folder.resolve("job.jsonl");
    assertEquals(0, Ran.command("report", "--data", data, "--out", html).code());
    assertEquals(0, Ran.command("report", "--owner", "--data", data, "--out", owner).code());
    for (Path out : List.of(csv, markdown, json)) {
      assertEquals(0, Ran.command("export", "--data", data, "--out", out).code());
    }
    for (Path page : List.of(html, owner)) {
      String text = Files.readString(page);
      assertTrue(text.contains("alert(1)"), "it is shown");
      assertFalse(text.contains("<script"), "and nothing more");
      assertFalse(text.contains("\u202e"), "and turns nothing around");
    }
    assertTrue(
        Files.readAllLines(csv).stream().anyMatch(line -> line.contains("=cmd|")),
        "its name stands in the table");
    assertFalse(Files.readString(csv).matches("(?s).*(^|,)\"?=cmd.*"), "and is no formula");
    assertTrue(Files.readString(markdown).contains("\\<script\\>"), Files.readString(markdown));
    assertTrue(Files.readString(json).contains("\"kind\":\"picture\""), "as JSON");
  }

  @Test
  void picturesStandInTheTimelineAndAreNoSoundsThere() throws IOException {
    threePhotos();
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    Path line = folder.resolve("timeline.html");
    assertEquals(0, Ran.command("report", "--timeline", "--data", data, "--out", line).code());
    String page = Files.readString(line);
    assertEquals(3, page.split("id=\"picture-[0-9]+\"", -1).length - 1);
    assertFalse(page.contains("id=\"sound-"), "a picture is no sound");
    assertTrue(page.contains("\"lane\":\"pictures\""), "they have a lane of their own");
  }

  @Test
  void nothingOfThePlaceReachesTheCustomer() throws Exception {
    threePhotos();
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    Path html = folder.resolve("record.html");
    Path owner = folder.resolve("owner.html");
    Path pdf = folder.resolve("owner.pdf");
    assertEquals(0, Ran.command("report", "--data", data, "--out", html).code());
    assertEquals(0, Ran.command("report", "--owner", "--data", data, "--out", owner).code());
    assertEquals(0, Ran.command("report", "--data", data, "--out", pdf).code());
    for (Path page : List.of(html, owner)) {
      List<byte[]> shown = shown(Files.readString(page));
      // To the owner goes one of each mark, and of each step that has none.
      assertEquals(page.equals(html) ? 3 : 2, shown.size(), page.toString());
      for (byte[] each : shown) {
        ReducedCopyChecks.assertBare(each);
      }
      assertTrue(
          Files.readString(page).contains("alt=\"Photo 1, splash guard, 09:10"), page.toString());
    }
    assertTrue(
        Files.readString(html).contains("alt=\"Picture, 09:38, during: drain coolant\""), "step");
    int inPdf = 0;
    try (PDDocument document = Loader.loadPDF(pdf.toFile())) {
      for (PDPage page : document.getPages()) {
        for (COSName name : page.getResources().getXObjectNames()) {
          if (page.getResources().getXObject(name) instanceof PDImageXObject image) {
            inPdf++;
            ByteArrayOutputStream bytes = new ByteArrayOutputStream();
            try (var in = image.getStream().createInputStream(List.of("DCTDecode"))) {
              in.transferTo(bytes);
            }
            ReducedCopyChecks.assertBare(bytes.toByteArray());
          }
        }
      }
    }
    assertEquals(2, inPdf);
    for (Path file : List.of(html, owner, pdf)) {
      String text = Files.readString(file, StandardCharsets.ISO_8859_1);
      assertFalse(text.contains("Invented Camera Works"), file.toString());
      assertFalse(text.contains("GPS"), file.toString());
    }
  }

  private static List<byte[]> shown(String page) {
    Matcher found = Pattern.compile("data:image/jpeg;base64,([A-Za-z0-9+/=]+)").matcher(page);
    List<byte[]> all = new ArrayList<>();
    while (found.find()) {
      all.add(Base64.getDecoder().decode(found.group(1)));
    }
    return all;
  }

  @Test
  void theOriginalsStayAsTheyAreAndAFolderThatCantBeWrittenDoes() throws IOException {
    threePhotos();
    Map<Path, byte[]> before = new TreeMap<>();
    Map<Path, FileTime> times = new TreeMap<>();
    for (Path file : files()) {
      before.put(file, Files.readAllBytes(file));
      times.put(file, Files.getLastModifiedTime(file));
      assertTrue(file.toFile().setWritable(false));
    }
    assertTrue(photos.toFile().setWritable(false));
    try {
      assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    } finally {
      assertTrue(photos.toFile().setWritable(true));
    }
    assertEquals(before.keySet(), new java.util.TreeSet<>(files()), "nothing was laid beside them");
    for (Path file : before.keySet()) {
      assertArrayEquals(before.get(file), Files.readAllBytes(file), file.toString());
      assertEquals(times.get(file), Files.getLastModifiedTime(file));
    }
  }

  @Test
  void picturesCountForNothingInTheCheck() throws IOException {
    threePhotos();
    String before = Ran.command("check", "--data", data, "--json").out();
    assertEquals(0, run("--mark", "1=IMG_1.jpg").code());
    assertEquals(before, Ran.command("check", "--data", data, "--json").out());
  }

  /** Most of them of another day: only their heads are read. */
  @Test
  @Tag("slow")
  void tenThousandPhotos() throws IOException {
    for (int i = 0; i < 9_990; i++) {
      String taken =
          String.format(
              java.util.Locale.ROOT, "2026:02:%02d 10:%02d:%02d", 1 + i % 28, i / 60 % 60, i % 60);
      Photos.jpeg(photos.resolve("old" + i + ".jpg"), 16, 8, Exif.at(taken));
    }
    for (int i = 0; i < 10; i++) {
      Photos.jpeg(
          photos.resolve("new" + i + ".jpg"),
          64 + 8 * i,
          48,
          Exif.at("2026:03:02 09:1" + i + ":00"));
    }
    long begin = System.nanoTime();
    Ran ran = run("--offset", "0");
    Duration took = Duration.ofNanos(System.nanoTime() - begin);
    assertEquals(0, ran.code(), ran.err());
    assertEquals(10, pictures().size());
    assertTrue(ran.err().contains("9990 photos taken at another time"), ran.err());
    assertTrue(took.toSeconds() < 60, took::toString);
    begin = System.nanoTime();
    assertEquals(2, run().code());
    took = Duration.ofNanos(System.nanoTime() - begin);
    assertTrue(took.toSeconds() < 60, took::toString);
  }

  @Test
  void aPhotoWithoutATimeTellsNothingOfTheClock() throws IOException {
    threePhotos();
    ByteArrayOutputStream bytes = new ByteArrayOutputStream();
    assertTrue(ImageIO.write(new BufferedImage(8, 8, BufferedImage.TYPE_INT_RGB), "jpeg", bytes));
    Files.write(photos.resolve("plain.jpg"), bytes.toByteArray());
    Ran ran = run("--mark", "1=plain.jpg");
    assertEquals(
        Ran.failed(
            2,
            "plain.jpg: no time of taking is in it, so it tells nothing of the camera's clock; name"
                + " a photo that comes from the camera itself"),
        ran);
  }
}
