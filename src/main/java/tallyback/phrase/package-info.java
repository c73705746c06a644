/**
 * What may be said: the grammar as a {@link tallyback.phrase.WordGraph} and how its words sound as
 * a {@link tallyback.phrase.Lexicon}.
 */
@org.jspecify.annotations.NullMarked
package tallyback.phrase;
