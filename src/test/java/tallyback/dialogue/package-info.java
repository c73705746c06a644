/** Tests of the dialogue, with the real entry grammar and a log in memory. */
@org.jspecify.annotations.NullMarked
package tallyback.dialogue;
