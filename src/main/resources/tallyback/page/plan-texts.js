// What the page of plans says. English only. What is wrong with a plan comes from the server.
export const TEXTS = {
  kinds: { given: "Named at the start", own: "Yours", starter: "To start from" },
  openJobs: "Jobs left open",
  openJob: (job) => `${job.id}: ${job.plan}`,
  entries: (count) => (count === 1 ? "1 entry" : `${count} entries`),
  thisJob: "noted now",
  empty: "An empty plan",
  toEnter: (count) => (count === 0 ? "" : `${count} to enter from the manual`),
  folder: (folder) => `Yours lie in ${folder}, as files that any editor opens.`,
  save: "Save",
  saveNew: "Save as new",
  begin: "Start a job",
  sheet: "Lay-out sheet",
  code: "Code for a phone",
  saved: "Saved",
  unsaved: "Not saved yet",
  starter: "Stays as it is: save it as yours",
  savedWithCopy: (copy) => `Saved. What stood there before is kept as ${copy}.`,
  beginWhyStops: (count) => `A job can be started once ${count === 1 ? "the stop is" : `the ${count} stops are`} put right.`,
  writing: "The plan, line by line",
  writingHelp: "Ctrl+Space offers what fits here. Ctrl+F searches. Esc, then Tab, leaves the text.",
  found: "Is it right?",
  right: "Nothing found: the plan is right.",
  looking: "Looking through it …",
  counts: (stops, checks, notes) =>
    [
      stops ? `${stops} ${stops === 1 ? "stop" : "stops"}` : "",
      checks ? `${checks} to check` : "",
      notes ? `${notes} ${notes === 1 ? "note" : "notes"}` : "",
    ].filter(Boolean).join(", "),
  weights: { stop: "Stop", check: "Check", note: "Note" },
  manual: (count) => `From your manual: ${count} to enter`,
  manualSays:
    "Put in what your machine's manual says. What you leave open is noted when it is said, and held against nothing.",
  fields: {
    torque: "torque", head: "head", thread: "thread", length: "length", grade: "property class", capacity: "capacity",
    matters: "matters from", share: "comes out here", from: "at least", to: "at most", drop: "may fall by", minutes: "minutes",
  },
  answers: { value: "torque, with its unit", tolerance: "give or take, with its unit", "tolerance-from": "where it says so" },
  answer: (field) => (field === "thread" || field === "grade" || field === "minutes" ? field : `${field}, with its unit`),
  putIn: "Put in",
  putInDone: (field, of) => `${field} of ${of} is in the text. Save it.`,
  reading: "What it says",
  notReadable: "It can be read once the stops are put right.",
  line: (line) => `line ${line}`,
  nameIt: "What is your plan called?",
  nameYes: "Save it",
  no: "Not now",
  beginTitle: (name) => `Start a job: ${name}`,
  beginSays: (job, toEnter) =>
    (job ? `The job noted now (${job}) is put down and stays open: go on with it from the list here. ` : "") +
    (toEnter ? `${toEnter === 1 ? "1 value is" : `${toEnter} values are`} still to be entered from the manual. ` : "") +
    "The job keeps the plan as it is now.",
  beginYes: "Start it",
  codeTitle: (name) => `On the phone: ${name}`,
  codeSays:
    "For a phone that is paired with this machine; any other is asked for its code first. The address holds while this machine keeps it and Tallyback runs with --lan.",
  noPhones: "No phone can open this page: start Tallyback with \u201cserve --lan\u201d for that.",
  print: "Print",
  close: "Close",
  restored: (time) => `What you had not saved at ${time} is here again.`,
  throwAway: "Throw it away",
  away: "This machine can't be reached. What you type is kept in this browser; try again when Tallyback runs.",
  newPlan: (name) => `# yaml-language-server: $schema=plan.schema.json
tallyback-plan: 1
name: ${name}

items:
  - say: [cover]
  - say: [cover bolts]
    thing: bolt
    count: 4
    of: cover
    from-manual: [head, torque]

steps:
  - say: [make safe]
    cautions: ["Engine stopped and cold, key out, machine on stands and not on the jack."]
  - say: [open up]
    off: [cover-bolts, cover]
    needs: make-safe
  - say: [close up]
    on: [cover, cover-bolts]
    needs: open-up
`,
};
