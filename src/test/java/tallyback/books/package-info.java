/** Tests of the books: undo and correction, double entry, and random entries. */
@org.jspecify.annotations.NullMarked
package tallyback.books;
