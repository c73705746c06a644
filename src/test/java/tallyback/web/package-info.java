/** Tests of the page and its server, with a page made of Java and with a real browser. */
@org.jspecify.annotations.NullMarked
package tallyback.web;
