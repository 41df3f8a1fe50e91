# The catalogue in English. A message is named by what it says. Rows of lists stand in en-lists.ftl.
# Under a vehicle: at most two sentences, each of at most twelve words, the verb first.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Come out. Then { $shims }, and measure again.
shims-both-rear = { $depth } under both rear stands
shims-both-front = { $depth } under both front stands
shims-both-left = { $depth } under both left stands
shims-both-right = { $depth } under both right stands
shim-front-left = { $depth } front left
shim-front-right = { $depth } front right
shim-rear-left = { $depth } rear left
shim-rear-right = { $depth } rear right
shims-each = { $parts } under the stands
fill-amount = Fill { $amount } of new fluid, the extra included.
fill-first-amount = Keep the engine off. Fill { $amount } first.
fill-more-through-the-tube = It is low: fill { $amount } through the tube.
fill-more-amount = Shut the check port by hand. It is low: fill { $amount }.
draw-out-amount = Too full: draw { $amount } out of the tube, measured.
add-that-amount = Shut the plug by hand. Then fill { $amount }.
fill-here-amount = It is low: fill { $amount } through this opening.
let-out-amount = Too full: keep the engine off. Let { $amount } out, measured.
not-driven-amount = It must not be driven. { $amount } are missing.
open-level-hole = Open the level hole now, from the side. Glasses on.
watch-until-it-drips = Watch from the side. Say when it only drips.
be-ready-at-the-hole = Go below now. Keep the level hole closed.
close-hole-not-right = Close the level hole. This is not the right temperature.
close-hole-too-hot = Close the level hole. Too hot.
pipe-out-plug-in = Pipe out, plug in at once, by hand.
drain-and-measure = Drain it. Measure how much, how warm.
fill-that-of-the-data = Fill the amount of the vehicle data.
close-up-cap-on = Drain plug in by hand, cap on the tube. Fill hose and tray away.
cap-on-check-adapter = Leave the cap on. Check the adapter's plug.
gauge-and-cloth-ready = Have gauge and cloth ready. Leave the cap on.
fill-more-tube = It is low: fill more through the tube.
cap-locked-tighten = Cap on the tube, locked. Engine off, then tighten the drain plug.
close-up-plugs = Plugs in by hand. Fill hose and tray away.

## The result

level-low-by = The level is set, low by { $amount }.
level-high-by = The level is set, high by { $amount }.
known-to-within = Known to ±{ $amount }.
known-to = Known to { $amount }.
was-low-by-more = It was low by more than { $amount }.
was-right-within = It was right, known to ±{ $amount }.
was-low-by = It was low by about { $amount }, ±{ $within }.
was-high-by = It was high by about { $amount }, ±{ $within }.
less-than-before = { $amount } less in it than before.
more-than-before = { $amount } more in it than before.
as-much-as-before = As much in it as before.
mend-leak-first = Mend the leak first. Then set the level again.
find-why-it-stays-low = Find out why it stays low before it is driven. Then set the level again.
recheck-on-the-day = Check the level again, cold, on the day that the report names.
fill-then-open-again = Fill { $amount }, then open the check port at the right temperature. Let it become a trickle.
open-again-let-run = Open the check port again at the right temperature, vehicle level. Let it become a trickle.
put-right-and-fill = Put right what is named below, fill { $amount }. Then set the level again.
put-right-and-set-again = Put right what is named below. Then set the level again.

## What comes next: at most eight words

next-stands-level-hose = Stands, level, exhaust hose.
next-drain-fill-port-first = Drain, fill port first.
next-measure-how-it-stands = Measure how it stands.
next-read-the-container = Read the container.
next-drain = Drain.
next-pipe-back-in = Pipe back in, by hand.
next-fill-and-circulate-again = Fill again, and let it circulate again.
next-fill = Fill new fluid, and the extra.
next-close-up-come-out = Both plugs in, tray away, come out.
next-come-out-engine-starts = Come out. Then the engine starts.
next-brake-and-selector = Foot on the brake, selector through its positions.
next-stay-out-until-near = Stay out until the right temperature is near.
next-go-below-when-near = Go below when the right temperature is near.
next-open-at-the-word = Keep it closed until the word comes.
next-read-once-more = Wipe it, and read it once more.
next-thin-thread-close = Thin thread: close it by hand.
next-engine-off-jug-plugs = Engine off, read the jug, tighten the plugs.
next-open-only-when-right = Open again only at the right temperature.
next-let-it-cool = Let it cool; the right temperature comes again.
next-right-plug-pipe-in = Engine off, read the jug. Right plug, pipe in?
next-look-again = Look again at the right temperature.
next-wipe-dry-look = Wipe it dry, come out, look for leaks.
next-engine-on-look-for-drops = Engine on again, look for drops.
next-lower-and-drive = Come out. Then it is lowered and driven.
next-drive-a-short-way = Lower it, drive a short way.
next-finish = Finish the report.
next-check-again = Check again on the day in the report, cold.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Close the check port if it is open.
leave-the-engine = Leave the engine as it is.
check-adapter-plug = Check the adapter's plug.
check-which-device = Check which device is named.
use-another-adapter = Use another adapter.
check-ignition-and-plug = Check the ignition and the adapter's plug.
wait-until-it-answers = Wait until it answers.
check-the-sheet = Check the vehicle data.
none-yet = { $signal }: none yet
vehicle-silent = vehicle silent
adapter-silent = adapter silent
adapter-gone = adapter gone
no-adapter = no adapter
adapter-in-trouble = adapter in trouble
signal-refused = { $signal } refused
signal-missing = { $signal }: no value
name-reading = reading
name-fluid = fluid
name-coolant = coolant
name-spot = spot
name-display = display
name-lamp = lamp

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } round, { $dwell } s in each position
   *[other] { $rounds } rounds, { $dwell } s in each position
}
move-on-round = move on, round { $round } of { $rounds }
seconds-more-round = { $seconds } s more, round { $round } of { $rounds }
brake-begin-in = Hold the brake. Begin in { $position }.
brake-stay-in = Hold the brake. Stay in { $position }.
brake-back-to = Hold the brake. Back to { $position }.
brake-move-to = Hold the brake. Move to { $position }.
offer-begin-in = It is in { $position }: begin
offer-back-in = Back in { $position } now
offer-now-in = In { $position } now

## Why, with numbers

head-fluid = Fluid
head-coolant = Coolant
head-sump = Sump
head-display = Display
head-lamp = Lamp's range
signal-below-band = { $signal } { $celsius } ± { $u }, below the range { $band }.
signal-above-band = { $signal } { $celsius } ± { $u }, above the range { $band }.
signal-inside-band = { $signal } { $celsius } ± { $u }, inside the range { $band }.
fluid-about = Fluid about { $celsius } ± { $u }.
better-reading = Better: { $reading } (± { $u }).
runs-out-in-time = Needs about { $needs } min to run out, has { $window }.
runs-out-tight = Needs about { $needs } min to run out, has { $window }. Tight: have all at hand before the word comes.
runs-out-too-long = Needs about { $needs } min to run out, has { $window }. Close in time, do the rest in a second round.
warming-a-minute = Warming { $rate } a minute.
cooling-a-minute = Cooling { $rate } a minute.

## The search for the identifier

identifier-found = Identifier: found.
identifier-not-found = Identifier: not found.
identifiers-asked = Identifier: { $asked } of about { $planned } asked
identifier-stopped = Identifier: stopped.
identifier-is-left = Identifier: { $place } is left.
identifiers-may-be-it = Identifier: { $left } may be it.
it-shows = It shows { $celsius }.
seconds-left = about { $count } s left
minutes-left = about { $count } min left

## Nothing is known

close-port-nothing-known = Close the check port. Nothing is known.
keep-port-closed-nothing-known = Keep the check port closed. Nothing is known.
leave-engine-nothing-known = Leave the engine as it is. Nothing is known.
keep-port-closed = Keep the check port closed.
leave-gauge-nothing-known = Leave the gauge. Nothing is known.
without-the-daemon = without the daemon
daemon-does-not-answer = The daemon does not answer. It goes on where it was when it is started again.
no-daemon-for = no daemon, { $seconds } s
a-person-tells-it = A person tells it.
last-reading-too-old = The last reading is too old. It comes back by itself.

## Names and counts on a screen

job-number = job { $job }
data-unconfirmed = Nobody has confirmed this vehicle data. No job begins with it.
data-guessed = Vehicle data was guessed: the ± is wider. The plan says what helps most.
look-again-in = Look again in about { $minutes } min.
still-open = Still to do: { $what }.
until-window-opens = until the right temperature
until-window-closes = left at the right temperature
until-read-again = until it must be read again
until-back-in-band = to cool, engine off
without-a-reading = without a reading
torque-pipe = pipe { $torque }
torque-check-plug = check plug { $torque }
torque-fill-plug = fill plug { $torque }
told-by-people = told by people: { $what }
signal-seconds-ago = { $signal }, { $count } s ago
signal-minutes-ago = { $signal }, { $count } min ago
step-of = step { $step } of { $steps }: { $name }
step-prepare = prepare
step-drain = drain
step-fill = fill
step-circulate = circulate
step-window = window
step-run-out = run out
step-trickle = trickle
step-close = close
step-torque = torque
step-test-drive = test drive
step-recheck = recheck
amount-drained = drained { $amount }
amount-filled = filled { $amount }
amount-ran-out = ran out { $amount }
amount-should-run-out = should run out { $amount }
amounts-at = { $amounts } (at { $celsius })

## The one huge word

word-wait = wait
word-go = go
word-too-hot = too hot
word-no-reading = no reading

## What can be told: buttons

offer-start-the-job = Start the job
offer-another-kind-of-job = Another kind of job
offer-choose-another-sheet = Choose other vehicle data
offer-hot-day-the-air-outside-in-the-shade = Hot day? The air outside, in the shade
offer-no-drive-is-felt-in-gear = No drive is felt in gear
offer-it-differs-not-this-fluid = It differs: not this fluid
offer-drained-how-much = Drained: how much
offer-filled-how-much = Filled: how much
offer-it-was-in-and-more-came-out-how-much = It was in, and more came out: how much
offer-ran-out-how-much = Ran out: how much
offer-it-still-flows = It still flows
offer-filled-more-how-much = Filled more: how much
offer-fluid-flows-from-the-check-port = Fluid flows from the check port
offer-nothing-runs-out = Nothing runs out
offer-it-only-drips = It only drips
offer-it-is-a-thin-thread-now = It is a thin thread now
offer-it-stands-at-the-lower-edge = It stands at the lower edge
offer-it-stands-below-the-edge-how-far = It stands below the edge: how far
offer-it-runs-out-over-the-edge = It runs out over the edge
offer-fluid-runs-out-there = Fluid runs out there
offer-drawn-out-how-much = Drawn out: how much
offer-ran-out-from-the-jug-how-much = Ran out, from the jug: how much
offer-plugs-tightened-to-the-torques = Plugs tightened to the torques
offer-driven-no-leak-seen = Driven, no leak seen
offer-write-the-record = Finish the report
offer-check-port-closed-hand-tight = Check port closed, hand-tight
offer-fluid-flows-now-at-go = Fluid flows now, at go
offer-it-leaks-damp-drops-runs = It leaks: damp, drops, runs
offer-how-it-stands-measured = How it stands, measured
offer-the-gauge-shows = The gauge shows
offer-the-number-on-the-display = The number on the display
offer-a-thermometer-s-reading = A thermometer's reading
offer-it-stands-on-four-stands = It stands on four stands
offer-the-lift-is-known-to-be-level = The lift is known to be level
offer-the-exhaust-goes-outside = The exhaust goes outside
offer-the-brake-is-held = The brake is held
offer-the-cooler-pin-is-in = The cooler pin is in
offer-rounds-done-selector-back-in-p-parking-brake = Rounds done, selector back in P, parking brake on
offer-p-parking-brake-on-chocks = P, parking brake on, chocks
offer-the-fill-port-is-open = The fill port is open
offer-container-read-the-same-words = Container read: the same words
offer-the-pipe-is-in = The pipe is in
offer-both-plugs-in-tray-and-hose-away = Both plugs in, tray and fill hose away
offer-i-am-out-and-clear = I am out and clear
offer-the-cooler-pin-is-out = The cooler pin is out
offer-no-leak-seen = No leak seen
offer-covers-and-wheel-are-back-on = Covers and wheel are back on
offer-the-service-mode-is-on = The service mode is on
offer-ready-is-off-key-below = Ready is off, key below
offer-it-is-dry = It is dry
offer-everybody-is-safe = Everybody is safe
offer-it-started-cold = It started cold
offer-selector-in-the-position-of-the-look = Selector in the position of the look
offer-it-is-so = It is so
offer-recheck-of-number = Recheck of an earlier job: its number
offer-the-check-port-is-open-fluid-flows = The check port is open, fluid flows
offer-the-check-port-is-open-nothing-comes = The check port is open, nothing comes
offer-old-fluid-went-with-a-part = Old fluid went with a part
offer-kept-back-as-a-sample-how-much = Kept back as a sample: how much
offer-four-heights-front-left-right-rear-left-righ = Four heights: front left, right, rear left, right
offer-a-remark-for-the-record = A remark for the report
offer-which-vehicle-plate-or-order = Which vehicle: plate or order
offer-write-the-record-now = Finish the report now
offer-end-the-job-without-a-level = End the job without a level
offer-somebody-is-in-danger = Somebody is in danger
offer-spilled-at-the-drain-by-eye-how-much = Spilled at the drain, by eye: how much
offer-spilled-while-filling-by-eye-how-much = Spilled while filling, by eye: how much
offer-spilled-at-the-check-port-by-eye-how-much = Spilled at the check port, by eye: how much
offer-it-is-the-fluids = It is the fluid's: { $place }
offer-lamp-too-cold = Lamp too cold: { $shows }
offer-lamp-right = Lamp right: { $shows }
offer-lamp-too-hot = Lamp too hot: { $shows }

## What is asked with a choice

choice-check = only check the level
choice-alone = change, one person alone
choice-check-alone = only check, one person alone

## On every screen

say-next = Next: { $what }
say-balance = Amounts: { $what }
say-undo = Take back: { $what }
hold-to-tell = hold to confirm
hold-longer = Hold it a little longer: { $what }.
told = Entered.
refused = Not entered: { $why }
not-told-no-contact = Not entered: no contact.
let-be = Let be

## The terminal

term-open = to do: { $what }
term-twice = (twice)
term-more = m more
term-more-page = m more ({ $page } of { $pages })
term-other-seat = i other seat
term-undo = u take back { $what }
term-leave = q leave
term-press-again = { $what }: press { $key } again.
term-nothing-to-take-back = Nothing of the last minute can be taken back.
term-like-amount = like 2.4L 22C
term-like-depth = like 3mm
term-like-level = pitch and roll, like 0.1deg -0.2deg
term-like-spot = like 38.5C tape; { $surfaces }
term-like-temperature = like 41C
term-like-number = its number: { $names }
term-then-enter = then Enter

## The page

page-connecting = connecting
page-nothing-known-yet = Nothing is known yet.
page-pipe-nothing-known = The overflow pipe: nothing is known
page-pipe-shows = The overflow pipe: { $celsius }, range { $low } to { $high }
page-positions = Selector positions
page-still-open = Still to do
page-cautions = Cautions
page-more = More
page-elsewhere = Elsewhere
page-seat-inside = The seat inside
page-seat-under = The seat under the vehicle
page-jobs = Jobs and reports
page-plan = Plan
page-data = Vehicle data
page-sound = Sound
page-sound-on = Sound is on
page-sound-off = Sound is off
page-volume = Volume
page-vibration-on = Vibration is on
page-vibration-off = Vibration is off
page-hear-all = Hear them all
page-tell = Enter
page-close = Close
page-pair-title = Pair this browser
page-pair-where = The code stands on the daemon’s terminal; standpipe page pair shows a new one.
page-code = Code
page-pair-clear = This page is not encrypted: whoever listens on this network can read along and take the code.
page-pair = Pair
page-no-contact = no contact
page-no-contact-for = no contact, { $seconds }
page-without-contact = without contact
page-no-daemon = No contact with the daemon. It comes back by itself.
page-leave-engine = Leave the engine as it is. Nothing is known.
page-close-port-if-open = Close the check port if it is open. Nothing is known.
page-how-much = How much
page-how-warm = How warm it was
page-depth = Read or measured
page-pitch = Pitch, nose up is positive
page-roll = Roll, left side up is positive
page-temperature = Temperature
page-thermometer-shows = The thermometer shows
page-held-to = Held to or pointed at
page-in-your-words = In your words
page-which = Which
page-degrees = degrees
page-no-job = No job yet.
page-job = Job { $job }, { $day }

## What can be taken back

undo-level = the measured level
undo-drained = the amount drained
undo-filled = the amount filled
undo-ran-out = the amount that ran out
undo-gauge = the reading of the gauge
undo-answer = the last answer
undo-selector = the selector in { $position }
undo-trickle = the thin thread
undo-drips = the drips
undo-torqued = the tightened plugs
undo-test-driven = the drive

## How a bay is

status-job = Job { $job } runs.
status-adapter = Adapter: { $what }
status-by-people = Adapter: none, people tell everything
status-port-shut = Adapter: { $what }, its port is shut
status-vehicle = Vehicle: answers on { $what }
status-vehicle-silent = Vehicle: no answer
status-reading = Last reading: { $celsius }, { $age } ago
status-no-reading = Last reading: none
status-disk = Journal: { $free } free on its disk
status-disk-silent = Journal: its disk does not answer
status-clock = Clock: { $time }
status-clock-behind = Clock: { $time }, behind by { $behind }
status-clients = Clients: { $here } of { $most }, this one among them
status-running = Daemon: version { $version }, running for { $time }

## The report: what the customer reads

date = { $day } { $month ->
    [1] January
    [2] February
    [3] March
    [4] April
    [5] May
    [6] June
    [7] July
    [8] August
    [9] September
    [10] October
    [11] November
   *[12] December
} { $year }
report-title = Report on the transmission fluid
report-of-job = Job { $job }, { $day }
times-from-to = { $from } to { $to }
times-since = since { $from }
label-and-value = { $label }: { $value }
job-not-ended = The job is not finished.
what-was-done = What was done?
is-it-right = Is the level right?
may-i-drive = May I drive?
when-to-come-again = When do I come again?
what-it-costs = What does it cost?
what-you-should-know = What else you should know
answer-yes = Yes.
answer-probably = Probably.
answer-no = No.
done-changed = The transmission fluid was changed: { $drained } came out, { $filled } of new fluid went in.
done-only-drained = { $drained } of fluid came out. No new fluid was entered.
done-only-filled = { $filled } of new fluid went in.
done-nothing-entered = No amount of fluid was entered.
done-checked = The level of the transmission fluid was checked.
done-checked-again = The fluid level was checked again, after job { $job }.
done-fresh-share = { $percent } % of the fluid in it is new now.
drive-not-before-the-end = Not before the job is finished.
drive-not-said = This record does not say. Ask the workshop before you drive.
again-not-right = It is not done yet. The workshop has to set the level.
days-and = { $days } and { $last }
again-no-day = No day was named.
again-on = { $days }. Leave it parked the night before: the level is checked cold.
customer-other-cause = The level was right, so the fault has another cause. New fluid alone does not cure it.
customer-driven-low = It was driven with too little fluid. That can have worn it.
customer-ask-history = It was low, but no leak is seen. Who worked on it last?
customer-filled-wrong = There was too much fluid in it before this job.
customer-worn = The old fluid was black, burnt or had metal in it: worn inside. Ask the workshop what it advises.
customer-water-in = The old fluid was milky: water or coolant got in. The cause must be found.
customer-codes = The vehicle stores fault codes: { $codes }. Ask the workshop what they mean.
customer-guessed = Some of the vehicle data was guessed. So the level is known less well.
label-not-confirmed = Not confirmed
label-vehicle = Vehicle
label-vin = Vehicle number (VIN)
label-odometer = Odometer
label-date = When
label-workshop = Workshop
label-technician = Technician
label-fluid = Fluid
label-batch = Batch on the container
label-cost = Cost
sign-technician = Technician, date
sign-customer = Customer, date

## The report: what the next technician reads

for-the-next-technician = For the next technician
label-guessed = Guessed in the vehicle data
guesses-cost = Known to ±{ $with } with the guesses, to ±{ $without } without.
guess-that-helps-most = Most would help: { $what }. Then ±{ $within }.
label-recheck = Checked again
recheck-compared = Left { $left }, found { $found }: changed by { $change }, ±{ $within }.
recheck-agrees = That is within what both are known to.
recheck-differs = That is more than both are known to.
recheck-not-comparable = The two cannot be compared.
label-told-before = Complaint before
label-told-after = With the level set
label-level-error = Level error
level-error-is = { $amount }, ±{ $within } (k = 2); { $height } at the overflow pipe. Plus is too much.
label-band = Right temperature
band-by = { $low } to { $high }, read by: { $signal }
label-torques = Torques
as-the-maker-says = as the vehicle’s maker says
label-data = Vehicle data
label-link = Read through
entry-all-by-people = No adapter: everything was told by people.
label-readings = Readings
readings-read = { $count }, at most { $age } ms old.
readings-told = { $count }, told by people.
readings-apart = At most { $seconds } s apart.
readings-pauses = Pauses of more than 5 s: { $count }, the longest { $seconds } s.
readings-losses = Contact lost: { $count } ×.
readings-restarts = Program started again: { $count } ×.
readings-known-at-closing = Standard uncertainty at closing: { $u }.
section-wrong = What was wrong, and what to do
section-temperature = Temperature over time
section-budget = Level error, and what it is made of
section-balance = Amounts, as measured
section-codes-and-fluid = Fault codes and old fluid
section-old-fluid = Old fluid
section-steps = Steps
section-told = What was entered, and when
section-on-the-way = What happened on the way
section-stops = Warnings that were shown
section-photos = Photos
section-cautions = Cautions that were shown
budget-cause = Cause
budget-amount = Amount
budget-u = Standard uncertainty
budget-together = Together, ± with k = 2
balance-drained = drained
balance-filled = filled
balance-ran-out = ran out
balance-with-parts = with parts
balance-spilled = spilled, by eye
balance-kept = kept back
balance-expected = Should run out
balance-closure = Ran out, less what should
amount-and-uncertainty = { $amount }, standard uncertainty { $u }
balance-fresh = New fluid
balance-waste = Waste oil
codes-before = Fault codes at the start
codes-after = New during the job
codes-none-told = none told by the vehicle
codes-nobody-read = not read: there was no adapter
old-fluid-not-entered = Nobody entered how it looked.
state-open = not begun
state-started = begun
state-done = done
state-failed = went wrong
state-undone = taken back
who-under = below
who-inside = inside
who-vehicle = vehicle
who-person = a person
entry-at = { $what } at { $celsius }
entry-spilled = Spilled { $amount }, by eye.
as-the-data-says = as the vehicle data says
entry-kept = Kept back { $amount }
entry-level = Measured: nose { $pitch }, left side { $roll }
entry-corners = Heights: front { $front }, rear { $rear }
entry-air = Air outside
engine-idling = The engine idles
engine-stopped = The engine is off
entry-below-edge = { $depth } below the lower edge
entry-gauge = The gauge shows { $depth }
entry-confirmed = Confirmed
entry-selector = Selector
entry-photo = Photo
entry-recheck-of-job = Check again of job
entry-identifier = Confirmed as the fluid’s identifier
entry-leak = Leak
entry-alarm = Alarm
entry-ended-by-hand = Ended by hand
entry-remark = Remark
entry-taken-back = Taken back
entries-before = { $count } more before that, in the journal
entries-of-thermometers = Thermometer readings: { $count }, in the plot
more-in-the-journal = { $count } more in the journal
column-time = Time
column-step = Step
column-state = State
column-by = By
column-what = What
journal-range = Events { $first } to { $last } of the journal. Times in { $zone }.
label-seal = Seal
seal-is-checked-by = { $command } shows whether the record was changed.
doubt-unread = The event { $event } cannot be read: { $why }.
doubt-changed = The events { $first } to { $last } are not as they were written: missing or changed.
plot-no-temperature = No temperature was recorded.
plot-from-to = From { $from } to { $to }.
plot-was-right = The temperature was right (hatched) from minute { $from } to minute { $to }.
plot-never-right = The temperature was never right.
plot-port-was-open = The check port was open from minute { $from } to minute { $to }, closed at { $celsius }.
plot-axis = minutes from the start; { $unit }
plot-port-open = port open
pipe-drawn = The overflow pipe: right temperature { $low } to { $high }.
pipe-drawn-closed = The overflow pipe: right temperature { $low } to { $high }. Closed at { $celsius }.
offer-odometer = The odometer, with its unit
offer-technician = Who did the work
offer-workshop = Which workshop
offer-fluid = The fluid, as its container says
offer-batch = The batch on the container
offer-cost = What it costs, with the currency

## The board of many bays

bay-is-quiet = No job runs here.
bay-is-not-heard = Not heard. Look there yourself.
board-empty = No bay is heard at { $broker } yet.
board-broker-lost = { $broker } is not heard. What stands here is old.
board-keys = Type to search. Ctrl-C leaves.
board-sought = Search: { $text }

## The plan

plan-title = Plan: { $sheet }
plan-buy = Buy
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = Fill
plan-fill-says = about { $amount }: { $parts }
plan-one-drain = a drain of { $amount }
plan-drains = { $count } drains of { $amount }
plan-for-parts = { $amount } for filter, cooler and pan
plan-the-extra = the extra
plan-hand-in = about { $amount }, to hand in
plan-fresh = New fluid afterwards
plan-at-best = { $percent } % at best
plan-runs-out = Will run out
plan-runs-out-says = about { $amount } at { $celsius }, if the level was right before
plan-trickle = Until a thin thread
plan-trickle-says = about { $seconds } s after opening: a guide, never a decision
plan-unknown = cannot be told
plan-hot = In hot places
plan-hot-says = { $low } to { $high }, from { $air } outside on: shown by the vehicle, or told at the start
plan-opens = Right temperature comes
plan-opens-says = { $minutes } after a cold start at { $air }: a usual car, wrong by up to a factor of two
plan-lasts = It stays right
plan-lasts-says = { $minutes }, with the same doubt
plan-minutes = { $low } to { $high } min
plan-hot-day = Hot day
plan-day-second-band = The range for hot places counts today. Where the vehicle does not show the outside air, enter it at the start.
plan-day-below-second = The fluid starts near the range: the right temperature comes soon and is short. Begin in the cool of the morning. The range for hot places does not count yet.
plan-day-no-second = The fluid starts near the range: the right temperature comes soon and is short. Begin in the cool of the morning. The vehicle data has no range for hot places; its maker may.
plan-degree = A degree
plan-degree-falls = { $amount } for each { $degree } too warm at closing: closed too cold it ends too full, too warm low
plan-degree-rises = { $amount } for each { $degree } too warm at closing: closed too cold it ends low, too warm too full
plan-left-out = Left out
plan-leaves-out-slope = how the slope of the vehicle data bends outside the range, and where fluid is held back or let go; the expansion is in that slope
plan-leaves-out-thermostat = fluid that a thermostat holds back or lets go as it warms: the law is expansion alone
plan-tilt = A tilt
plan-tilt-says = { $pitch } for 1° nose up, { $roll } for 1° left side up: keep within { $allowed }
plan-not-confirmed = Nobody has confirmed
plan-before-any-job = { $what }: no job begins before it is confirmed
plan-guessed = Guessed
plan-guess-costs = { $what }: costs { $amount } of the ±
plan-guess-is-free = { $what }: no part of the ±
plan-off = What it costs to be off
plan-off-by = Off by
plan-off-pipe = At the overflow pipe
plan-off-temperature = temperature { $by }
plan-off-nose = nose up { $by }
plan-off-left = left side up { $by }
plan-still-right = still right
plan-too-much = too much
plan-checklist = Checklist
plan-at-hand = At hand
plan-beware = Beware
plan-out-of-order = May be entered out of order
plan-stop-rules = When to stop, whatever the step
who-either = either
line-exchanges = Drain and fill { $count } times. In between let the engine run through the positions.
line-selector = { $positions }: { $dwell } s at each, { $rounds } rounds
line-look = Look: { $look }
line-looks = Look, { $count } times, one after the other.
line-look-number = Look { $number }: { $look }
line-wave = A small wave every { $seconds } s is not the excess: look between two.
line-stand = Not level: { $how }. Measure it, by eye does not count.
stand-nose-up = { $degrees } nose up
stand-nose-down = { $degrees } nose down
stand-left-up = { $degrees } left side up
stand-right-up = { $degrees } right side up
look-idling = idling
look-engine-off = engine off
look-ready-off = Ready off
look-in-position = in { $position }
look-after = after { $seconds } s
look-between = { $from } to { $to } s after the stop
look-in-band = at the right temperature
sign-thread = the excess runs out to a thin thread
sign-first-drips = dry at first; drips begin before the upper end of the range
sign-drips = it runs out until it only drips
sign-below-edge = the fluid stands { $low } to { $high } below the lower edge
sign-at-edge = the fluid stands at the lower edge
sign-chart = the gauge shows what the chart allows
sign-amounts = the amounts are right
look-then-add = closed, then { $amount } more
