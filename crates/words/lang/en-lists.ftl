# English of the lists, written from the tables in the code: `BLESS=1 cargo test -p view --test catalogue`.

## Advice

Advice-start-job = Choose the vehicle. Then start the job.
Advice-prepare-vehicle = Put it on four stands or a lift. Level, exhaust hose outside.
Advice-shim-stands = Come out. Then level it at the stands, and measure again.
Advice-park = P, parking brake on. Chocks at the wheels that stay down.
Advice-read-container = Read the container aloud beside the vehicle data. Same words?
Advice-open-fill-port = Open the fill port first. Only then drain.
Advice-cool-before-drain = Let it cool before you drain it. Above 60 °C it scalds.
Advice-switch-ready-off = Ready off, key with the one below. Else it can start.
Advice-drain = Drain it, the pipe out too. Measure how much, how warm.
Advice-drain-again = Engine off, keep both closed. Then drain and fill once more.
Advice-put-pipe-in = Pipe in by hand, to its stop. Too tight, it cracks.
Advice-was-pipe-out = Little came out: was the pipe out? Put it back in.
Advice-is-pipe-in = Is the pipe back in? Without it the sump runs out.
Advice-fill = Fill as much new fluid as came out, and the extra.
Advice-close-up = Both plugs in by hand. Fill hose and tray away.
Advice-put-pin-in = Put the cooler pin in. Only then comes the start.
Advice-lead-exhaust = Hose on the exhaust, its end outside. Open doors are not enough.
Advice-check-exhaust = Long idling: is the exhaust hose on? Headache: get out first.
Advice-come-out = Come out. Say when you are clear.
Advice-stay-out = Stay out. The engine starts, the selector moves.
Advice-wait-for-clear = Wait. Go on only when below says clear.
Advice-start-engine = Start now. Foot on the brake, stay in P.
Advice-hold-brake = Foot on the brake and keep it there. Selector in P.
Advice-cycle-selector = Foot on the brake. Move the selector through its positions.
Advice-switch-mode-on = Service mode on, stop-start off. Say when it is.
Advice-confirm-open = Something is still to do. Put it right, then confirm it.
Advice-stay-clear = Stay out. The right temperature is still to come.
Advice-keep-idling = Keep it idling in P. Foot off the accelerator, touch nothing.
Advice-may-stop = It stopped by itself before, after so long. Touch nothing.
Advice-keep-idling-until-closed = Keep it idling until below says closed.
Advice-be-ready = Go below now. Keep the port closed.
Advice-look-position = Foot on the brake. Selector to the position of the look.
Advice-settle = Stay out until it has settled. Leave all as it is.
Advice-open-port = Open the check port now, from the side. Glasses on.
Advice-watch-stream = Watch from the side. Say when it is a thin thread.
Advice-watch-drips = Watch from the side. Say when the first drips come.
Advice-open-port-off = Keep the engine off. Open the plug now, from the side.
Advice-watch-off = Engine off. Watch: say when it is a thin thread.
Advice-look-at-edge = See where it stands. Say at the edge, or how far below.
Advice-read-gauge = Wipe the gauge, push it to its stop. Say the millimetres.
Advice-read-again = Wipe it, read it again. Two must agree to 2 mm.
Advice-draw-out = Too full. Draw some out of the tube, measured.
Advice-let-some = Too full. Let some out until it stands right.
Advice-still-flowing = Still flowing after 15 s? Say so; else close it.
Advice-close-port = Close it now, by hand.
Advice-close-port-wait = Close the check port. This is not the right temperature.
Advice-close-port-cool = Close the check port. Too hot.
Advice-close-too-much = Close it now. Too much came: wrong plug?
Advice-stop-and-cool = Stop the engine. Let it cool, then idle again.
Advice-stop-now = Stop the engine now. P.
Advice-stop-engine = Stop the engine. Key out, in your hand.
Advice-keep-off = Keep the engine off.
Advice-keep-closed = Keep it closed. First the engine is stopped.
Advice-stay-away = Stay out. It has to cool first.
Advice-answer = Answer the call: are you well?
Advice-call-below = Call below. No answer: engine off, go and look.
Advice-charge-battery = Battery low. Stop the engine, come out, then charge it.
Advice-fill-first = Keep the engine off. Fill what is missing first.
Advice-fill-more = Shut the check port by hand. It is low: fill more.
Advice-fill-to-edge = Engine off, plug open: fill until it runs out there. Measure.
Advice-add-amount = Shut the plug by hand. Then fill the amount of the vehicle data.
Advice-fill-here = It is low. Fill more through this opening.
Advice-hose-out = Hose out. Say what comes: stream, drips or nothing.
Advice-look-why-low = Stop filling. Look for a leak, or a wrong plug.
Advice-drain-wrong = Wrong fluid: keep the engine off. Drain it, fill the right one.
Advice-read-jug = Read the jug first: say how much ran out.
Advice-let-out = Too full: keep the engine off. Let the excess out, measured.
Advice-soak-up = Soak it up. Wipe the exhaust once it is cold.
Advice-check-adapter = Shut the check port by hand. Then check the adapter's plug.
Advice-ask-engine = Does it idle, no red lamp? Then say so.
Advice-say-engine = Is the engine off? Say what it does.
Advice-close-port-engine = Close the check port. Nobody says that the engine idles.
Advice-feel-pan = Stood 8 h, the pan as cold as the air? Then confirm.
Advice-read-inside = What does the vehicle show of its fluid now? Say it.
Advice-push-adapter = Leave the engine as it is. Push the adapter in again.
Advice-check-sensor = Keep it closed. Measure the pan on matt tape.
Advice-tighten = Keep both plugs in. Engine off, then tighten them.
Advice-take-pin-out = Take the cooler pin out, engine off. Else it overheats.
Advice-wipe-dry = Wipe it dry with a cloth. Come out, say clear.
Advice-look-for-leaks = After 5 min of idling, look for drops.
Advice-look-for-drops = Look for drops around the plugs.
Advice-mend-leak = Engine off. Mend the leak first.
Advice-refit = Covers and wheel back on. Torque the nuts once on the ground.
Advice-test-drive = Lower it. Drive gently a short way, then look for leaks.
Advice-not-driven = It must not be driven. Fluid is missing.
Advice-finish = Finish the report.
Advice-recheck = Check the level again, cold, on the day that the report names.
Advice-set-again = It is not set. See the report, then look again.
Advice-wait = Nothing to do inside yet. Touch nothing.
Advice-fresh-air = Get out into fresh air, all. Call for help.
Advice-get-out = Get out, all. Call the fire service.
Advice-engine-off-caught = Engine off now, P, foot on the brake. Call for help.
Advice-hold-still = Stay still: nobody pulls, nobody lowers it. Help comes.
Advice-cool-burn = Cool running water on the burn, 20 min. No ice.
Advice-help-burn = Help them come out. Shut the port from the side, then engine off.

## Caution

Caution-maker-first = Follow the maker's text, local rules and licensed practice where they differ.
Caution-four-stands = Four stands, or a lift on its locks. A jack alone kills.
Caution-hot-fluid = Gloves, sleeves, glasses on. Fluid, pan and exhaust are hot.
Caution-running-engine = Engine runs. Keep hair and sleeves off belts, fan and shafts.
Caution-brake-held = Stay out from under it. Foot on the brake, wheels free or chocked.
Caution-ventilation = Exhaust gas kills. Hose on, its end outside: open doors are not enough.
Caution-waste-oil = Catch it in its own container. Hand it in as waste oil.
Caution-overheating = Too hot. Engine off now, selector in P, keep clear until it has cooled.
Caution-low-voltage = Battery low: lights and fan off. Charge it only with the engine off, nobody below.
Caution-long-idling = Long idling. Hose still on, its end outside? Headache, anybody: get out first.
Caution-lost-while-open = No reading, port open. Close it by hand; keep the engine idling, then check the adapter.
Caution-fill-port-first = Fill port first. Drained, with a stuck fill plug, it cannot be driven.

## Precondition

Precondition-on-stands = On four stands or a lift, hard level floor, shaken, firm.
    .short = stands
Precondition-vehicle-level = The vehicle is level.
    .short = level
Precondition-exhaust-outside = Exhaust hose on, its end outside; or the vehicle outdoors.
    .short = exhaust hose
Precondition-brake-held = The brake is held while the selector moves.
    .short = brake held
Precondition-cooler-bypass = The cooler bypass is pinned open.
    .short = cooler pin
Precondition-selector-cycled = The selector has been moved through its positions as the sheet says.
    .short = selector
Precondition-filled = New fluid has been filled in, with a margin.
    .short = fill
Precondition-started-cold = It started cold: coolant and air agreed, or it had stood for 8 hours.
    .short = cold start
Precondition-engine-running = The engine runs.
    .short = engine
Precondition-engine-idling = The engine idles within the range of the sheet.
    .short = idle
Precondition-engine-off = The engine is off, as this look asks.
    .short = engine off
Precondition-settled = It has settled for as long as the sheet says.
    .short = settling
Precondition-in-position = The selector stands where the sheet wants it at the look.
    .short = position of the look
Precondition-standing-still = The vehicle stands still.
    .short = standing still
Precondition-parked = Selector in P, parking brake on and holding. Chocks where wheels stay down.
    .short = parking brake
Precondition-fill-port-open = The fill port was opened: it moves.
    .short = fill port
Precondition-fluid-right = The container was read aloud beside the vehicle data: the same.
    .short = container read
Precondition-pipe-in = The overflow pipe is back, by hand to its stop. Then its small torque.
    .short = pipe in
Precondition-closed-up = Both plugs in by hand, tray and fill hose away.
    .short = plugs in, tray away
Precondition-clear = The one below has come out, tools too, and said so.
    .short = clear
Precondition-bypass-out = The cooler pin is out.
    .short = cooler pin out
Precondition-no-leak = Engine idling on a dry underside: no leak seen.
    .short = leak look
Precondition-refitted = Covers and wheel are back on, the nuts tightened on the ground.
    .short = covers, wheel
Precondition-mode-on = Service mode on, stop-start off.
    .short = service mode
Precondition-ready-off = Ready is off, key with the one below.
    .short = ready off
Precondition-dry = What was spilled is soaked up, the exhaust wiped.
    .short = spill dry
Precondition-all-safe = Everybody is out of danger.
    .short = all safe

## Reason

Reason-in-band = The fluid is inside the band, uncertainty included.
Reason-no-band = This look asks for no temperature.
Reason-below-band = The fluid is still below the band.
    .remedy = Let the engine idle; the forecast says how long.
Reason-above-band = The fluid is above the band.
    .remedy = Keep the check port closed, stop the engine and let it cool.
Reason-guard-band = So near the edge of the band that it may lie outside.
    .remedy = Wait; it will be clear soon.
Reason-hysteresis = Only just in the band, or still mixing after a start.
    .remedy = Wait; it will be clear soon.
Reason-too-uncertain = The temperature is not known well enough for this band.
    .remedy = Give a better reading: a fluid identifier, or a spot reading on tape or matt paint.
Reason-no-reading = There is no temperature reading yet.
    .remedy = With the ignition on the first one comes within some seconds.
Reason-stale = The last temperature reading is too old.
    .remedy = It comes back by itself; if it does not, check the adapter's plug.
Reason-link-lost = There is no contact with the vehicle.
    .remedy = Check the adapter's plug and the ignition; it comes back by itself.
Reason-frozen = The temperature has not moved although it should: the sensor may be stuck.
    .remedy = Compare with a thermometer on the sump; if they differ, the sensor or its wiring is at fault.
Reason-stepped-away = The temperature jumped further than fluid can warm or cool.
    .remedy = Check the sensor's connector; wait until the readings agree again.
Reason-not-alive = The temperature has not moved yet. So the sensor is unproven.
    .remedy = Compare with a thermometer on the sump; if they differ, the sensor or its wiring is at fault.
Reason-copies-coolant = The fluid reading equals the coolant all the time: the control unit may substitute it.
    .remedy = Compare with a thermometer on the sump before you trust it.
Reason-disagrees = The temperature does not fit coolant, air, start or thermometer.
    .remedy = Read the sump on tape or matt paint with a thermometer. Check the identifier in the sheet and the surface you told.
Reason-units-disagree = Control units tell different temperatures. Nobody has said which one is right.
    .remedy = Find out with a thermometer which one is right. Name it in the sheet: `check.from`.
Reason-other-vehicle = The adapter is plugged into another vehicle than this job's.
    .remedy = Plug the adapter back into the vehicle of this job.
Reason-sensor-code = A fault code of the fluid temperature sensor is stored.
    .remedy = Repair the sensor or its circuit first; this temperature cannot be trusted.
Reason-overheat-code = A fault code for overheated fluid is stored.
    .remedy = Find out why the fluid overheated before you set a level.
Reason-implausible = The reading is outside what fluid can have.
    .remedy = Check the sensor's connector; wait until the readings agree again.
Reason-precondition-open = Something is not confirmed that must hold before the level is set.
    .remedy = See the list of what is still open.
Reason-no-job = No job has been started.

## Trouble

Trouble-port-gone = The connection to the adapter is cut.
    .remedy = Check the adapter's plug and cable; it comes back by itself.
Trouble-adapter-silent = The adapter does not answer.
    .remedy = Check the adapter's plug; it comes back by itself.
Trouble-adapter-mute = The adapter says nothing, though its port was opened anew.
    .remedy = Pull the adapter and plug it in again; if that does not help, use another one.
Trouble-out-of-step = The adapter answers, but not to what it is asked.
    .remedy = Pull the adapter and plug it in again; if that does not help, use another one.
Trouble-adapter-fault = The adapter reports a fault of its own.
    .remedy = Pull the adapter and plug it in again; if that does not help, use another one.
Trouble-restarting = The adapter has lost its settings and is set up again.
    .remedy = It comes back by itself; if it happens again and again, check its plug.
Trouble-modem = A modem answers at this port.
    .remedy = Name another device: this port is not the adapter's.
Trouble-loop = Only what is sent comes back: a bare cable, or an adapter without supply.
    .remedy = Plug the adapter into the vehicle: there it gets its supply.
Trouble-noise = Only noise comes from this port.
    .remedy = Name the adapter's rate with its device, or another device.
Trouble-talk = What answers takes no setting of a diagnostic adapter.
    .remedy = Pull the adapter and plug it in again; if that does not help, use another one.
Trouble-not-understood = The adapter does not understand what the vehicle is to be asked.
    .remedy = Use another adapter.
Trouble-senders-unknown = Several control units answer. The adapter does not say which sent what.
    .remedy = Use another adapter, one that names the senders.
Trouble-sender-unknown = The adapter does not say which control unit answers.
    .remedy = Use another adapter, one that names the senders.
Trouble-protocol-unknown = The vehicle answers, but the adapter does not say on which bus.
    .remedy = Use another adapter.
Trouble-unreadable = The vehicle answers, but the adapter's text of it cannot be read.
    .remedy = It is asked again by itself; if it stays so, use another adapter.
Trouble-late-reply = The adapter does not end its replies in time.
    .remedy = It is asked again by itself; if it stays so, use another adapter.
Trouble-interrupted = The adapter breaks off what it is asked.
    .remedy = It is asked again by itself; if it stays so, use another adapter.
Trouble-spoilt = The replies are damaged on their way.
    .remedy = Check plug and cable; it is asked again by itself. If it stays so, use another adapter.
Trouble-other-request = The answers belong to other requests.
    .remedy = It is asked again by itself; if it stays so, use another adapter.
Trouble-repeats = The adapter only repeats old answers.
    .remedy = Pull the adapter and plug it in again; if that does not help, use another one.
Trouble-unsteady = The value differs from one reply to the next.
    .remedy = Check plug and cable; it is asked again by itself. If it stays so, use another adapter.
Trouble-vehicle-silent = The vehicle does not answer.
    .remedy = Check the ignition, and that the adapter sits firmly in the connector.
Trouble-search-endless = The search for the vehicle does not come to an end.
    .remedy = It is tried again by itself; check that the adapter sits firmly in the connector.
Trouble-bus-start = The vehicle's bus does not start.
    .remedy = Check the ignition, and that the adapter sits firmly in the connector.
Trouble-bus-trouble = The vehicle's bus disturbs what is sent.
    .remedy = Check that the adapter sits firmly. Nothing else may hang on the connector.
Trouble-only-refusals = The vehicle refuses even the first request.
    .remedy = Some vehicles lock their connector; then only a thermometer is left.
Trouble-unit-silent = No control unit answers this request.
    .remedy = The vehicle itself answers: check header and identifier in the sheet.
Trouble-unit-busy = The control unit asks for more time and does not answer.
    .remedy = If it stays so, check the identifier in the sheet.
Trouble-refused-unknown = The control unit refuses: it does not know this identifier.
    .remedy = Check identifier and header in the sheet.
Trouble-refused-locked = The control unit refuses: it keeps this value locked.
    .remedy = Use a sheet with coolant or thermometer.
Trouble-refused-now = The control unit refuses for now: conditions are not right.
    .remedy = Go on; it may answer at the step where the engine runs.
Trouble-refused = The control unit refuses this request.
    .remedy = Check identifier and header in the sheet.
Trouble-wrong-sender = Another control unit answers than the one that was asked.
    .remedy = Check the header in the sheet.
Trouble-not-addressable = The sheet's control unit cannot be addressed on this vehicle's bus.
    .remedy = Check the header in the sheet.
Trouble-undecodable = The answer is not built as the sheet says.
    .remedy = Check byte and length of the identifier in the sheet.

## Outcome

Outcome-set = The level is set.
Outcome-set-low = The level is set, but low by more than the sheet allows.
Outcome-set-high = The level is set, but high by more than the sheet allows.
Outcome-not-set = The level is not set.
Outcome-set-unsure = The level is probably right.
Outcome-checked = The level was right.

## Drivable

Drivable-yes = It may be driven.
Drivable-workshop-only = It may be moved in the workshop only.
Drivable-no = It must not be driven; moved only with its driven wheels off the ground.

## Meaning

Meaning-other-cause = The level was right: the symptom has another cause. A change of fluid is no cure. Read the codes.
Meaning-driven-low = It was driven low. Ask for slip, read the codes, tell the customer.
Meaning-ask-history = It was low and no leak is seen. Ask who worked on it, and when.
Meaning-filled-wrong = It was too full. Filled cold, or another fluid in it? Ask.
Meaning-worn = Black, burnt or metal: it is worn inside. The customer decides.
Meaning-water-in = Milky: water or coolant is in it. Find where it comes in.

## Question

Question-symptoms = Why is it here?
Question-leaks = Look below: does it leak?
Question-leak-place = Where does it leak?
Question-fluid = The first drops: how does the fluid look?

## FindNext

FindNext-key-on = Turn the key on. Leave the engine off and cold.
FindNext-wait = Leave the key on and the engine off.
FindNext-charge-battery = Charge the battery. The search goes on by itself.
FindNext-stop-engine = Stop the engine. The search needs it off.
FindNext-key-off = Turn the key off for ten minutes. Then turn it on, engine off.
FindNext-start-engine = All out from under it, exhaust hose outside. Then start it, in P.
FindNext-warm = Let it idle and warm up.
FindNext-spot = On four stands only, clear of shafts: measure the sump. Enter what it shows.
FindNext-cold-soak = Let the vehicle stand over night, then begin again.
FindNext-confirm = Does it show what the thermometer shows? Then confirm it.
FindNext-by-thermometer = Set the level by thermometer.
FindNext-look-at-link = Look at the adapter, then run find again.
FindNext-nothing = Nothing more to do here.

## EngineWord

EngineWord-idling = It idles.
EngineWord-stopped = It is off.

## Surface

Surface-tape = Matt tape on the metal sump.
Surface-matt-paint = Matt paint on the metal sump.
Surface-plastic = A plastic sump.
Surface-bare-metal = Bare metal: refused for infrared, its reading is the surroundings'.
Surface-contact = A contact probe on the metal sump.
Surface-stream = A probe in the fluid itself.
Surface-air = No surface: the air under the vehicle.

## Narrowing

Narrowing-spot-on-tape = A thermometer reading on tape or matt paint on the sump.
Narrowing-air-under-vehicle = The temperature of the air under the vehicle.

## Symptom

Symptom-slips = It slips in gear.
Symptom-flares = The engine flares between two gears.
Symptom-late = It engages late.
Symptom-hard = It engages hard.
Symptom-whine = It whines.
Symptom-shudder = It shudders.
Symptom-lamp = A lamp came on.
Symptom-leak = Fluid was seen under it.
Symptom-worked-on = Somebody worked on it lately.
Symptom-none = Nothing was noticed.

## Leak

Leak-dry = Dry.
Leak-damp = Damp: no drop hangs.
Leak-drops = Drops form.
Leak-runs = It runs.

## LeakPlace

LeakPlace-pan = At the pan.
LeakPlace-pipe-or-plug = At the pipe or a plug.
LeakPlace-cooler-line = At a cooler line.
LeakPlace-axle-seal = At an axle seal.
LeakPlace-converter-housing = At the converter housing.
LeakPlace-not-seen = Its place is not seen.

## FluidLook

FluidLook-red = Red, or as new.
FluidLook-brown = Brown.
FluidLook-black = Black.
FluidLook-burnt = It smells burnt.
FluidLook-milky = Milky.
FluidLook-metal = Metal in it.

## Alarm

Alarm-air = Bad air: dizzy, headache.
Alarm-burn = Somebody is burnt.
Alarm-caught = Somebody is caught.
Alarm-fire = Fire.

## Part

Part-filter = The old filter, soaked.
Part-cooler = The cooler and its lines, emptied.
Part-pan = The pan, taken off: what the drain had left in it.
Part-converter = The converter, emptied.

## Refusal

Refusal-no-job = No job has been started: `tell start` first.
Refusal-job-running = A job is running: end it with `tell done` or `tell abort` first.
Refusal-not-yet = That comes later in the job; a step before it is still open.
Refusal-already-done = That has been told already; `tell undo` takes it back.
Refusal-not-go = The verdict is not `go`, so the level cannot be right now.
Refusal-not-the-sign = This vehicle shows its level by another sign: tell what the screen asks for.
Refusal-port-closed = The check port has not been told open: `tell flowing` first.
Refusal-port-open = The check port is still open: close it and `tell closed` first.
Refusal-shown-by-vehicle = The vehicle itself shows this; a person cannot confirm it.
Refusal-not-needed = The sheet does not ask for this.
Refusal-not-level = The vehicle is not level enough: the level would be wrong by more than the sheet allows.
Refusal-impossible-amount = That amount cannot be: more than the transmission holds, or not more than nothing.
Refusal-more-out-than-in = More would have run out than was ever in it; measure again.
Refusal-useless-surface = Bare metal mirrors its surroundings: put matt tape on it and measure that.
Refusal-impossible-value = No vehicle in a workshop has that value; measure again.
Refusal-amount-unknown = The sheet does not say how much that holds: measure it and tell the amount.
Refusal-base-unknown = The sheet does not say wheelbase and track: tell them too.
Refusal-corner-misread = The four corners do not lie on one plane: one of them was misread. Measure again.
Refusal-wrong-position = The selector has another position to come next; the screen shows which.
Refusal-too-early = The selector has not stood long enough in the position before; the screen shows how long.
Refusal-no-such-job = The journal holds no job of that number.
Refusal-not-a-hash = That is no SHA-256: 64 hex digits in lower case.
Refusal-nothing-to-undo = There is nothing that could be taken back.
Refusal-too-long = The text is too long: at most 200 characters.
Refusal-hidden-character = The text holds a character that is not seen but changes what is.
Refusal-no-such-event = No event of that number has happened yet; what comes next is sent.
Refusal-too-many = This job holds as many remarks, photos and names of the vehicle as one may: write the rest elsewhere.
Refusal-too-fast = That is more than a person writes in so short a time: wait some seconds and tell it again.
Refusal-not-understood = This is not a request of the interface.
Refusal-journal-full = The journal cannot be written, so nothing can be promised. Free some disk space.
Refusal-band-decided = Which band counts was decided as this job began. If it is wrong, end the job, tell the air, and start again.
Refusal-needs-adapter = That sheet goes by the engine's coolant as the vehicle tells it; without an adapter nobody reads that. Choose a sheet with the signal `spot` or `fluid`.
Refusal-no-such-sheet = The daemon was not given a sheet of that name; `serve --sheets FOLDER` names a folder of them.
Refusal-sheet-unconfirmed = Nobody has confirmed this sheet here: `standpipe sheet check FILE` names what, `standpipe sheet confirm FILE` confirms it.
Refusal-no-sheet = No sheet was given, so no level can be set: begin again with `--sheet FILE`.
Refusal-not-searching = No search for an identifier runs: `standpipe find` begins one.
Refusal-no-such-candidate = That identifier is not the one that leads; the screen shows which does.
Refusal-not-agreed = No thermometer agrees with it yet: measure the sump and tell `spot` first.
Refusal-not-settled = More than one identifier may still be it: let it warm further.
Refusal-ended = The job has ended; `tell start` begins a new one.

## Shortfall

Shortfall-nothing-ran-out = Nothing ran out at `go`, so the level is low. Fill more, then look again inside the window.
Shortfall-stays-dry = Nothing ran out at `go` although more was filled than can be missing. Fill no more: look for a leak, another plug, how it stands.
Shortfall-gush-only = Only the first gush came out: it is low. Fill what is missing and the extra, then look again.
Shortfall-ran-out-too-much = Much more ran out than the excess: wrong plug, or a loose pipe? Fill what is missing, then look again.
Shortfall-amount-off = The amount in it is not the stated one, or the old fluid was not drained fully. Drain fully and fill the stated amount.
Shortfall-gauge-low = The gauge reads below the chart: it is low. Fill what the reading says is missing, then read again.
Shortfall-gauge-high = The gauge reads above the chart: it is too full. Draw some out, measured, then read again.
Shortfall-not-read-twice = No two readings of the gauge inside the band agree to 2 mm. Wipe it, push it to its stop, read again.
Shortfall-not-looked-again = Nobody has looked at the level again after the drive. Put it level once more and look.
Shortfall-not-opened = The check port was not opened while the verdict was `go`. Wait for the next window and set the level then.
Shortfall-opened-before-go = The check port was open before the verdict was `go`. Fluid that ran out then is missing from the margin; set the level again inside the window.
Shortfall-no-trickle = The stream had not become a trickle when the port was closed: the level is high. Open again inside the window and let it run out.
Shortfall-too-hot-before-trickle = The fluid became too hot before the stream was a trickle. Let it cool, fill the amount that is named, and set the level again.
Shortfall-closed-late = The check port was closed only after the fluid was too hot: the level is off. Let it cool, and set the level again.
Shortfall-closed-outside-go = The verdict was not `go` when the port was closed. Set the level again inside the window.
Shortfall-precondition-open = Something was never confirmed: see what is open. Put it right and set the level again.
Shortfall-not-level = The vehicle did not stand level. Level it and set the level again.
Shortfall-started-warm = The vehicle was warm when the job began. Let it cool until coolant and air agree, then begin again.
Shortfall-sensor-untrusted = The temperature could not be trusted when it counted. Compare it with a thermometer on the sump: not known yet which is wrong.
Shortfall-link-lost-while-open = The adapter was lost while the check port was open. Set the level again with a steady connection.
Shortfall-balance-open = What ran out does not fit what was filled. Was it low before, not drained fully, or is there a leak? Recheck soon.
Shortfall-unmeasured = Not measured: drained, filled or run-out. The amounts cannot check the level.
Shortfall-too-hot = The fluid was above the band. Stop the engine, let it cool, and start again from a cold vehicle.
Shortfall-thin-evidence = Told by people: two readings in the band, the last at most 2 min before closing, a measured stand, and a stream past 15 s were not all there.
Shortfall-leak-seen = A leak was told, and nobody has looked since. Mend it first.
Shortfall-aborted = The job was ended by hand.

## Health

Health-healthy = Everything that a job needs is there.
Health-waiting = It runs and waits: nothing can be read yet.
Health-needs-a-hand = It runs, but somebody must do something.

## Ailment

Ailment-no-adapter = The adapter is not there or does not answer.
    .remedy = Check its plug and cable; it comes back by itself.
Ailment-no-vehicle = The vehicle does not answer.
    .remedy = Check that the adapter sits firmly in the connector.
Ailment-no-reading = The temperature of the check is not read.
    .remedy = Wait some seconds; then check the identifier in the sheet.
Ailment-disk-full = The journal's disk is nearly full.
    .remedy = Free some space before the next job.
Ailment-disk-slow = The journal's disk is slow: events wait for it.
    .remedy = Use another card or disk for the journal.
Ailment-clock-behind = The clock is behind what the journal already holds.
    .remedy = Set the clock: reports carry its date.

## ClosureCause

ClosureCause-opened-early = The check port was open before the window: what the converter would have taken ran out too. Fill, and set the level again.
ClosureCause-engine-stopped = The engine stopped with the check port open: what drains back from the converter ran out too. Set the level again.
ClosureCause-wrong-temperature = An amount was told without its temperature, or with a wrong one: warm fluid takes more room. Measure warmth and amount together.
ClosureCause-was-low-before = It was low before the job: part of the margin made up for that. Ask how long, and look for an old leak.
ClosureCause-not-all-caught = Not all that ran out was caught. Tell what was spilled, by eye.
ClosureCause-leak = Fluid leaves somewhere else. Look at plugs, pan gasket and cooler lines before the vehicle goes.
ClosureCause-was-high-before = It was too full before the job.
ClosureCause-tube-not-seated = The standpipe is not screwed home, so fluid ran out beside it and the level is low. Tighten it to its torque and set the level again.
ClosureCause-drained-not-fully = Less was drained than the sheet expects, so more old fluid is left in. The level does not depend on it.

## Cause

Cause-temperature = The fluid was not at mid-band when the port was closed.
Cause-tilt = The vehicle was not exactly level.
Cause-warming = The fluid warmed while it dripped: the stream never fell to the nominal trickle, so more stood above the rim.
Cause-amount = What was filled differs from the stated amount, as far as vessels tell.
Cause-guess = What was guessed in the vehicle data.
Cause-residual = The film that still stood above the rim differs from that of the nominal trickle.

## Fault

Fault-code-stored = The vehicle stores a fault code.
Fault-not-an-adapter = What answers at this port is not an adapter of this kind.
Fault-adapter-fault = The adapter reports a fault of its own.
Fault-bus-fault = The vehicle's bus disturbs the exchange.
Fault-no-answer = A control unit does not answer a request.
Fault-declined = A control unit declines a request.
Fault-undecodable = A reply could not be decoded, so it became no reading.
Fault-units-disagree = Control units tell different values for one quantity.
Fault-avoided = The connection ended each time this was sent; it is sent last and seldom from now on.
Fault-wrong-sender = A control unit answered that was not asked.
Fault-journal-slow = The disk is slow.
Fault-journal-failed = The journal cannot be written.
Fault-journal-repaired = The journal was damaged; what can be read of it goes on, and the damaged file is kept.
Fault-journal-damaged = Something that the journal holds is not what was written.

## Way

Way-drained = Of what came out at the drain.
Way-filled = Of what was meant to go in.
Way-ran-out = Of what ran out at the check port.

## LampState

LampState-too-cold = Below the band.
LampState-right = In the band.
LampState-too-hot = Above the band.

## Step

Step-prepare = Prepare: stands, level, ventilation, tools, containers; fill port opens before the drain.
Step-drain = Drain, and measure what came out and how warm it was.
Step-fill = Fill what came out, and the extra.
Step-circulate = Start the engine; brake held, move the selector through its positions.
Step-window = Wait for the right temperature.
Step-run-out = Open the check port and let the excess run out.
Step-trickle = The stream has thinned to a trickle.
Step-close = Close the check port.
Step-torque = Tighten the plugs to the torques of the vehicle data.
Step-test-drive = Drive a short distance, look for leaks.
Step-recheck = Recheck the level days later, from a cold start.

## Hint

Hint-four-stands = Four stands, or a lift made for it.
Hint-inclinometer = Inclinometer, telephone or rule.
Hint-exhaust-hose = Exhaust hose.
Hint-measuring-jug = Measuring jug.
Hint-thermometer = Thermometer.
Hint-tray = Tray.
Hint-gloves-and-glasses = Gloves, eye protection.
Hint-new-fluid = New fluid.
Hint-pump = Pump, or funnel with hose.
Hint-empty-jug = Empty measuring jug.
Hint-lamp = Lamp.
Hint-torque-wrench = Torque wrench.
Hint-new-seals = New seals, as the vehicle's maker says.
Hint-its-own-gauge = The gauge that belongs to the vehicle.
Hint-cloth = Cloth without lint.
Hint-fill-stated = Fill the stated amount, measured.
Hint-fill-there = Fill through the opening that is looked at: what came out.
Hint-only-drips = It only drips.
Hint-close-by-hand = Close it by hand.
Hint-no-port-here = No port is opened here: a gauge is read in its tube, in mm.
Hint-read-twice = Wipe it, push it to its stop, draw it, read it; then the same once more.
Hint-two-must-agree = Two that agree to 2 mm count. Not wiped, or not at its stop, it says nothing.
Hint-clean-the-cap = Clean around the cap first; cap on again between two looks.
Hint-air-springs = Lifting mode on, the body held by stands or lift before anybody goes below.
Hint-orange = Orange is high voltage: only for a person trained for it, and never cut or moved.
Hint-on-a-lift = On a lift: P, parking brake, get out. Raise it, lower it onto the locks; nobody below while it moves.
Hint-sit-down-first = Sit down before the other goes below; get out only when below is clear.
Hint-wash-hands = Gloves on, wash with soap, change soaked clothes.
Hint-photo-if-black = Black, burnt, metal in it: a photo, and the customer decides before you go on.
Hint-never-what-ran-out = New fluid only, never what ran out.
Hint-out-of-a-pit = Out of a pit until it is time, the hose on.
Hint-wipe-around = Wipe around the plug first, clean hose and pump.
Hint-new-washer = The new washer goes on the plug while it runs out.
Hint-fan-may-start = The fan may start by itself with the engine off: hands away.
Hint-wipe-while-hot = Wipe with a dry cloth while it is hot; spray only cold, engine off.
Hint-all-but-the-stands = All but the stands, until the engine starts.
Hint-brake-any-time = The brake at any time; positions only with the engine running.
Hint-jug-may-wait = Reading the jug may wait until after it.
