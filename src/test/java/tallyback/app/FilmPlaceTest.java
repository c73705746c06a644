package tallyback.app;

import static org.junit.jupiter.api.Assertions.assertEquals;
import static org.junit.jupiter.api.Assertions.assertThrows;

import java.time.Duration;
import java.time.Instant;
import java.time.ZoneId;
import java.util.List;
import java.util.Optional;
import org.junit.jupiter.api.Test;
import org.junit.jupiter.params.ParameterizedTest;
import org.junit.jupiter.params.provider.CsvSource;
import org.junit.jupiter.params.provider.ValueSource;
import tallyback.app.FilmPlace.Said;
import tallyback.export.Export.Mark;

class FilmPlaceTest {

  private static final ZoneId ZONE = ZoneId.of("Europe/Oslo");
  private static final Instant NINE = Instant.parse("2026-03-02T08:00:00Z");

  private static Mark mark(int number, int seconds) {
    return new Mark(number, NINE.plusSeconds(seconds), number);
  }

  private static Said said(Integer number, double seconds) {
    return new Said(number, Duration.ofMillis(Math.round(seconds * 1000)));
  }

  @Test
  void aMarkTellsWhenTheFilmBegan() {
    assertEquals(
        new FilmPlace(NINE.plusMillis(500), List.of()),
        FilmPlace.by(List.of(mark(1, 13)), List.of(said(1, 12.5)), ZONE));
  }

  @Test
  void aMarkWithoutANumberDoesWhereThereIsOne() {
    assertEquals(
        NINE,
        FilmPlace.by(List.of(mark(7, 10)), List.of(new Said(null, Duration.ofSeconds(10))), ZONE)
            .begins());
  }

  @Test
  void twoMarksThatAgreeAreTakenAndTheirDifferenceIsTold() {
    assertEquals(
        new FilmPlace(
            NINE,
            List.of("camera mark 2 is 0:00.5 from where camera mark 1 puts it; the first counts")),
        FilmPlace.by(
            List.of(mark(1, 10), mark(2, 600)), List.of(said(1, 10), said(2, 600.5)), ZONE));
  }

  @Test
  void twoMarksOfAFilmThatWasPausedAreRefused() {
    assertEquals(
        List.of(
            "camera mark 1 and camera mark 2 can't be of one film that ran through: by the first it"
                + " began 2026-03-02T09:00:00.000+01:00, by the other"
                + " 2026-03-02T09:05:00.000+01:00; give one of them, or one of these times as"
                + " --film-begins"),
        assertThrows(
                WrongUse.class,
                () ->
                    FilmPlace.by(
                        List.of(mark(1, 10), mark(2, 600)),
                        List.of(said(1, 10), said(2, 300)),
                        ZONE))
            .lines());
  }

  @Test
  void aMarkSaidTwiceIsNotGuessed() {
    assertEquals(
        List.of(
            "camera mark 1 was said more than once, so the film may have begun"
                + " 2026-03-02T09:00:00.000+01:00 or 2026-03-02T09:10:00.000+01:00; give the right"
                + " one as --film-begins"),
        assertThrows(
                WrongUse.class,
                () -> FilmPlace.by(List.of(mark(1, 10), mark(1, 610)), List.of(said(1, 10)), ZONE))
            .lines());
  }

  @Test
  void aMarkThatIsNotThereIsToldWithThoseThatAre() {
    assertEquals(
        List.of(
            "there is no camera mark 3 in this job; it has camera mark 1 at"
                + " 2026-03-02T09:00:10.000+01:00"),
        assertThrows(
                WrongUse.class,
                () -> FilmPlace.by(List.of(mark(1, 10)), List.of(said(3, 10)), ZONE))
            .lines());
  }

  @ParameterizedTest
  @CsvSource({
    "12.5,12500",
    "0:12.5,12500",
    "1:02:03.250,3723250",
    "90,90000",
    "90:00,5400000",
    "0,0"
  })
  void placesAreReadAsAPlayerShowsThem(String text, long ms) {
    assertEquals(Optional.of(Duration.ofMillis(ms)), Clock.read(text));
  }

  @ParameterizedTest
  @ValueSource(strings = {"", "-1", "1:60", "1:61:00", "1:2:3:4", "a", "1:", ":1", "1e3", "12,5"})
  void otherPlacesAreNone(String text) {
    assertEquals(Optional.empty(), Clock.read(text));
  }

  @Test
  void placesAreWrittenSo() {
    assertEquals("0:12.5", Clock.of(12_540));
    assertEquals("12:00", Clock.of(720_000));
    assertEquals("1:02:03", Clock.of(3_723_000));
  }
}
