@org.jspecify.annotations.NullMarked
package tallyback.audio.film;
