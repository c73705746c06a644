/** Tests of what lets a phone be the page. */
@org.jspecify.annotations.NullMarked
package tallyback.web.lan;
