/**
 * The sound track of a film, or any sound file, as 16 kHz WAV: a program that the user has
 * installed (ffmpeg) turns it into that. One way in, {@link tallyback.audio.film.FilmSound}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.audio.film;
