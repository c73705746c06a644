/**
 * The entry language: one grammar for mouth and keyboard. {@code EntryGrammar} is the way in: it is
 * made for a plan from the base grammar in {@code grammars/}, gives the {@code WordGraph} for
 * listening, turns words into a {@link tallyback.phrase.Meaning}, and lists the phrases for the
 * card.
 */
@org.jspecify.annotations.NullMarked
package tallyback.phrase;
