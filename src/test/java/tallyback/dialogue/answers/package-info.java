/** Tests of the answers, each on a small job told in words. */
@org.jspecify.annotations.NullMarked
package tallyback.dialogue.answers;
