### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = Fahrzeug wählen. Dann den Auftrag beginnen.
Advice-prepare-vehicle = Auf vier Unterstellböcke oder die Hebebühne. Waagerecht, Abgasschlauch ins Freie.
Advice-shim-stands = Rauskommen. Dann an den Böcken waagerecht stellen, neu messen.
Advice-park = P, Feststellbremse an. Keile an die Räder, die am Boden bleiben.
Advice-read-container = Gebinde laut vorlesen, mit den Fahrzeugdaten vergleichen. Gleiche Worte?
Advice-open-fill-port = Erst die Einfüllschraube öffnen. Erst danach Öl ablassen.
Advice-cool-before-drain = Erst abkühlen lassen, dann Öl ablassen. Über 60 °C verbrüht es.
Advice-switch-ready-off = READY aus, Schlüssel nach unten geben. Sonst startet er von selbst.
Advice-drain = Öl ablassen, auch das Überlaufrohr raus. Menge und Temperatur messen.
Advice-drain-again = Motor aus, beide Schrauben geschlossen lassen. Danach noch einmal Öl ablassen, einfüllen.
Advice-put-pipe-in = Überlaufrohr von Hand rein, bis Anschlag. Zu fest, dann reißt es.
Advice-was-pipe-out = Es kam wenig: war das Überlaufrohr ausgebaut? Dann wieder einbauen.
Advice-is-pipe-in = Ist das Überlaufrohr wieder drin? Sonst läuft die Getriebeölwanne leer.
Advice-fill = Einfüllen, was rauskam, und die Zugabe.
Advice-close-up = Beide Schrauben handfest rein. Schlauch und Auffangwanne weg.
Advice-put-pin-in = Stift am Kühlerventil einstecken. Erst danach kommt der Motorstart.
Advice-lead-exhaust = Abgasschlauch an den Auspuff, Ende ins Freie. Offene Tore reichen nicht.
Advice-check-exhaust = Motor läuft lange: ist der Abgasschlauch dran? Kopfschmerz: erst an die Luft.
Advice-come-out = Rauskommen. „Bin draußen“ melden.
Advice-stay-out = Draußen bleiben. Motor startet, Wählhebel bewegt sich.
Advice-wait-for-clear = Warten. Erst weiter, wenn von unten „bin draußen“ kommt.
Advice-start-engine = Motor starten. Fuß auf der Bremse, in P bleiben.
Advice-hold-brake = Fuß auf die Bremse und dort lassen. Wählhebel in P.
Advice-cycle-selector = Fuß auf der Bremse lassen. Wählhebel durch alle Stellungen schalten.
Advice-switch-mode-on = Servicemodus an, Start-Stopp aus. Melden, wenn es so ist.
Advice-confirm-open = Noch etwas zu tun. Erledigen, dann bestätigen.
Advice-stay-clear = Draußen bleiben. Die richtige Temperatur kommt erst noch.
Advice-keep-idling = Motor im Leerlauf lassen, in P. Fuß vom Gas, Hände weg.
Advice-may-stop = Nach dieser Zeit ging der Motor schon einmal von selbst aus. Hände weg.
Advice-keep-idling-until-closed = Motor im Leerlauf lassen, bis von unten „geschlossen“ kommt.
Advice-be-ready = Unter das Fahrzeug gehen. Kontrollschraube geschlossen lassen.
Advice-look-position = Fuß auf der Bremse lassen. Wählhebel in die Prüfstellung.
Advice-settle = Draußen bleiben, bis es sich gesetzt hat. Alles so lassen.
Advice-open-port = Kontrollschraube jetzt öffnen, von der Seite. Schutzbrille auf.
Advice-watch-stream = Von der Seite zusehen. Melden, wenn es ein dünner Faden ist.
Advice-watch-drips = Von der Seite zusehen. Melden, wenn die ersten Tropfen kommen.
Advice-open-port-off = Motor bleibt aus. Schraube jetzt öffnen, von der Seite.
Advice-watch-off = Motor bleibt aus. Zusehen: melden, wenn es ein dünner Faden ist.
Advice-look-at-edge = Nachsehen, wo das Öl steht. Melden, ob an der Unterkante oder wie weit darunter.
Advice-read-gauge = Messstab abwischen, bis Anschlag einschieben. Millimeter melden.
Advice-read-again = Abwischen, noch einmal ablesen. Zwei müssen auf 2 mm gleich sein.
Advice-draw-out = Zu voll. Etwas aus dem Einfüllrohr absaugen und messen.
Advice-let-some = Zu voll. Etwas auslaufen lassen, bis es richtig steht.
Advice-still-flowing = Fließt es nach 15 s noch? Dann melden; sonst schließen.
Advice-close-port = Sofort schließen, handfest.
Advice-close-port-wait = Kontrollschraube schließen. Falsche Temperatur.
Advice-close-port-cool = Kontrollschraube schließen. Zu heiß.
Advice-close-too-much = Sofort schließen. Es kam zu viel: falsche Schraube?
Advice-stop-and-cool = Motor aus. Abkühlen lassen, danach wieder Motor im Leerlauf.
Advice-stop-now = Motor aus, sofort. P.
Advice-stop-engine = Motor aus. Schlüssel abziehen, in der Hand behalten.
Advice-keep-off = Motor bleibt aus.
Advice-keep-closed = Geschlossen lassen. Zuerst Motor aus.
Advice-stay-away = Draußen bleiben. Es muss erst abkühlen.
Advice-answer = Antworten, ob alles gut ist.
Advice-call-below = Nach unten rufen. Keine Antwort: Motor aus, hingehen, nachsehen.
Advice-charge-battery = Batterie schwach. Motor aus, rauskommen, erst danach laden.
Advice-fill-first = Motor bleibt aus. Erst einfüllen, was fehlt.
Advice-fill-more = Kontrollschraube handfest schließen. Zu wenig Öl: nachfüllen.
Advice-fill-to-edge = Motor aus, Schraube offen: einfüllen, bis es dort ausläuft. Messen.
Advice-add-amount = Schraube handfest schließen. Dann die Menge der Fahrzeugdaten einfüllen.
Advice-fill-here = Zu wenig Öl. Durch diese Öffnung nachfüllen.
Advice-hose-out = Schlauch raus. Melden, was kommt: Strahl, Tropfen oder nichts.
Advice-look-why-low = Füllen beenden. Nach einem Leck oder einer falschen Schraube suchen.
Advice-drain-wrong = Falsches Öl: Motor bleibt aus. Öl ablassen, das richtige einfüllen.
Advice-read-jug = Erst den Messbecher ablesen: melden, wie viel auslief.
Advice-let-out = Zu voll: Motor bleibt aus. Überschuss auslaufen lassen und messen.
Advice-soak-up = Öl aufnehmen. Auspuff abwischen, sobald er kalt ist.
Advice-check-adapter = Kontrollschraube handfest schließen. Dann den Stecker des Adapters prüfen.
Advice-ask-engine = Motor im Leerlauf, keine rote Lampe? Dann melden.
Advice-say-engine = Ist der Motor aus? Melden, was er tut.
Advice-close-port-engine = Kontrollschraube schließen. Niemand meldet, dass der Motor im Leerlauf ist.
Advice-feel-pan = 8 h gestanden, Getriebeölwanne so kalt wie die Luft? Dann bestätigen.
Advice-read-inside = Was zeigt das Fahrzeug zum Getriebeöl? Melden.
Advice-push-adapter = Motor so lassen, wie er ist. Adapter noch einmal fest einstecken.
Advice-check-sensor = Geschlossen lassen. Getriebeölwanne auf mattem Klebeband messen.
Advice-tighten = Beide Schrauben drin lassen. Erst Motor aus, dann festziehen.
Advice-take-pin-out = Stift am Kühlerventil rausziehen, bei Motor aus. Sonst überhitzt es.
Advice-wipe-dry = Mit einem Tuch trocken wischen. Rauskommen, „bin draußen“ melden.
Advice-look-for-leaks = Nach 5 min Motor im Leerlauf nach Tropfen suchen.
Advice-look-for-drops = Rund um die Schrauben nach Tropfen suchen.
Advice-mend-leak = Motor aus. Erst das Leck beheben.
Advice-refit = Abdeckungen und Rad wieder dran. Rad am Boden mit Drehmoment festziehen.
Advice-test-drive = Fahrzeug absenken. Sanft ein kurzes Stück fahren, dann nach Lecks suchen.
Advice-not-driven = Stehen lassen, nicht fahren. Es fehlt Getriebeöl.
Advice-finish = Bericht abschließen.
Advice-recheck = Getriebeölstand nachprüfen, kalt, am Tag im Bericht.
Advice-set-again = Noch nicht eingestellt. Bericht ansehen, dann noch einmal prüfen.
Advice-wait = Innen noch nichts zu tun. Hände weg.
Advice-fresh-air = Alle raus an die frische Luft. Hilfe rufen.
Advice-get-out = Alle raus. Feuerwehr rufen.
Advice-engine-off-caught = Motor aus, sofort, P, Fuß auf die Bremse. Hilfe rufen.
Advice-hold-still = Stillhalten: niemand zieht, niemand senkt das Fahrzeug ab. Hilfe kommt.
Advice-cool-burn = Verbrennung 20 min unter kühles, fließendes Wasser. Kein Eis.
Advice-help-burn = Beim Herauskommen helfen. Kontrollschraube von der Seite schließen, danach Motor aus.

## Caution

Caution-maker-first = Herstellertext, örtliche Regeln und Fachkunde gehen vor, wo sie abweichen.
Caution-four-stands = Vier Unterstellböcke, oder Hebebühne auf ihren Sperren. Ein Wagenheber allein tötet.
Caution-hot-fluid = Handschuhe, lange Ärmel, Schutzbrille tragen. Getriebeöl, Getriebeölwanne und Auspuff sind heiß.
Caution-running-engine = Motor läuft. Haare und Ärmel weg von Riemen, Lüfter und Wellen.
Caution-brake-held = Niemand unter dem Fahrzeug. Fuß auf der Bremse, Räder frei oder verkeilt.
Caution-ventilation = Abgas tötet. Abgasschlauch dran, Ende ins Freie: offene Tore reichen nicht.
Caution-waste-oil = In eigenem Behälter auffangen. Als Altöl abgeben.
Caution-overheating = Zu heiß. Motor aus, sofort, Wählhebel in P, wegbleiben, bis es abgekühlt ist.
Caution-low-voltage = Batterie schwach: Licht und Gebläse aus. Nur bei Motor aus laden, niemand darunter.
Caution-long-idling = Motor läuft lange. Abgasschlauch noch dran, Ende im Freien? Jemand mit Kopfschmerz: erst raus.
Caution-lost-while-open = Ohne Messung, Kontrollschraube offen. Handfest schließen; Motor im Leerlauf lassen, dann Stecker des Adapters prüfen.
Caution-fill-port-first = Erst die Einfüllschraube. Leer und nicht mehr füllbar, dann fährt es nicht.

## Precondition

Precondition-on-stands = Auf vier Unterstellböcken oder Hebebühne, Boden hart und eben, gerüttelt, fest.
    .short = Unterstellböcke
Precondition-vehicle-level = Das Fahrzeug steht waagerecht.
    .short = waagerecht
Precondition-exhaust-outside = Abgasschlauch dran, Ende im Freien; oder das Fahrzeug im Freien.
    .short = Abgasschlauch
Precondition-brake-held = Die Bremse ist getreten, solange der Wählhebel bewegt wird.
    .short = Bremse getreten
Precondition-cooler-bypass = Der Kühlerbypass ist mit dem Stift offen gehalten.
    .short = Stift am Kühlerventil
Precondition-selector-cycled = Der Wählhebel war in allen Stellungen, wie die Fahrzeugdaten sagen.
    .short = Wählhebel
Precondition-filled = Neues Getriebeöl ist eingefüllt, mit Zugabe.
    .short = einfüllen
Precondition-started-cold = Kalt gestartet: Kühlmittel und Luft stimmten überein, oder 8 Stunden gestanden.
    .short = Kaltstart
Precondition-engine-running = Der Motor läuft.
    .short = Motor
Precondition-engine-idling = Der Motor ist im Leerlauf, im Bereich der Fahrzeugdaten.
    .short = Motor im Leerlauf
Precondition-engine-off = Der Motor ist aus, wie diese Prüfung es verlangt.
    .short = Motor aus
Precondition-settled = Es hat sich gesetzt, so lange wie die Fahrzeugdaten sagen.
    .short = setzen lassen
Precondition-in-position = Der Wählhebel steht in der Prüfstellung der Fahrzeugdaten.
    .short = Prüfstellung
Precondition-standing-still = Das Fahrzeug steht still.
    .short = Stillstand
Precondition-parked = Wählhebel in P, Feststellbremse an und hält. Keile, wo Räder am Boden bleiben.
    .short = Feststellbremse
Precondition-fill-port-open = Die Einfüllschraube war schon offen: sie lässt sich lösen.
    .short = Einfüllschraube
Precondition-fluid-right = Das Gebinde wurde laut mit den Fahrzeugdaten verglichen: gleich.
    .short = Gebinde gelesen
Precondition-pipe-in = Das Überlaufrohr ist wieder drin, von Hand bis Anschlag. Dann sein kleines Drehmoment.
    .short = Überlaufrohr drin
Precondition-closed-up = Kontrollschraube und Einfüllschraube handfest drin, Auffangwanne und Schlauch weg.
    .short = Schrauben drin, Auffangwanne weg
Precondition-clear = Wer unten war, ist draußen, Werkzeug auch, und hat es gemeldet.
    .short = Meldung „bin draußen“
Precondition-bypass-out = Der Stift am Kühlerventil ist raus.
    .short = Stift am Kühlerventil raus
Precondition-no-leak = Motor im Leerlauf, Unterseite trocken: kein Leck gesehen.
    .short = Leckprüfung
Precondition-refitted = Abdeckungen und Rad sind wieder dran, das Rad am Boden festgezogen.
    .short = Abdeckungen, Rad
Precondition-mode-on = Servicemodus an, Start-Stopp aus.
    .short = Servicemodus
Precondition-ready-off = READY aus, Schlüssel bei der Person unten.
    .short = READY aus
Precondition-dry = Verschüttetes ist aufgenommen, der Auspuff abgewischt.
    .short = Verschüttetes aufnehmen
Precondition-all-safe = Alle sind außer Gefahr.
    .short = alle in Sicherheit

## Reason

Reason-in-band = Das Getriebeöl ist im Bereich, auch mit der Unsicherheit.
Reason-no-band = Diese Prüfung verlangt keine Temperatur.
Reason-below-band = Das Getriebeöl ist noch unter dem Bereich.
    .remedy = Motor im Leerlauf lassen; die Vorhersage sagt, wie lange.
Reason-above-band = Das Getriebeöl ist über dem Bereich.
    .remedy = Kontrollschraube geschlossen lassen, Motor aus, abkühlen lassen.
Reason-guard-band = So nah am Rand des Bereichs, dass es außerhalb liegen kann.
    .remedy = Warten; bald ist es klar.
Reason-hysteresis = Gerade erst im Bereich, oder nach dem Start noch nicht durchmischt.
    .remedy = Warten; bald ist es klar.
Reason-too-uncertain = Die Temperatur ist für diesen Bereich nicht genau genug bekannt.
    .remedy = Besser messen: eine Kennung des Getriebeöls, oder Thermometer auf Klebeband oder mattem Lack.
Reason-no-reading = Noch keine Temperatur gemessen.
    .remedy = Bei Zündung an kommt die erste in einigen Sekunden.
Reason-stale = Die letzte Temperatur ist zu alt.
    .remedy = Sie kommt von selbst wieder; wenn nicht, Stecker des Adapters prüfen.
Reason-link-lost = Es besteht kein Kontakt zum Fahrzeug.
    .remedy = Stecker des Adapters und Zündung prüfen; er kommt von selbst wieder.
Reason-frozen = Die Temperatur steht, obwohl sie sich ändern müsste: vielleicht hängt der Sensor.
    .remedy = Mit einem Thermometer an der Getriebeölwanne vergleichen; bei Abweichung Sensor oder Leitung defekt.
Reason-stepped-away = Die Temperatur sprang weiter, als Öl warm oder kalt werden kann.
    .remedy = Stecker des Sensors prüfen; warten, bis die Werte wieder übereinstimmen.
Reason-not-alive = Die Temperatur hat sich noch nicht bewegt. Der Sensor ist also ungeprüft.
    .remedy = Mit einem Thermometer an der Getriebeölwanne vergleichen; bei Abweichung Sensor oder Leitung defekt.
Reason-copies-coolant = Öltemperatur ist immer gleich Kühlmittel: vielleicht setzt das Steuergerät sie ein.
    .remedy = Erst mit einem Thermometer an der Getriebeölwanne vergleichen, dann vertrauen.
Reason-disagrees = Die Temperatur passt nicht zu Kühlmittel, Luft, Start oder Thermometer.
    .remedy = Getriebeölwanne auf Klebeband oder mattem Lack mit Thermometer messen. Kennung in den Fahrzeugdaten und gemeldete Oberfläche prüfen.
Reason-units-disagree = Steuergeräte melden verschiedene Temperaturen. Niemand hat gesagt, welche stimmt.
    .remedy = Mit einem Thermometer feststellen, welche stimmt. In den Fahrzeugdaten nennen: `check.from`.
Reason-other-vehicle = Der Adapter steckt in einem anderen Fahrzeug als dem des Auftrags.
    .remedy = Adapter wieder in das Fahrzeug dieses Auftrags stecken.
Reason-sensor-code = Ein Fehlercode des Sensors für die Getriebeöltemperatur ist gespeichert.
    .remedy = Erst Sensor oder Stromkreis reparieren; dieser Temperatur ist nicht zu trauen.
Reason-overheat-code = Ein Fehlercode für überhitztes Getriebeöl ist gespeichert.
    .remedy = Erst klären, warum das Getriebeöl überhitzte, dann den Getriebeölstand einstellen.
Reason-implausible = Der Wert liegt außerhalb dessen, was Getriebeöl haben kann.
    .remedy = Stecker des Sensors prüfen; warten, bis die Werte wieder übereinstimmen.
Reason-precondition-open = Etwas ist nicht bestätigt, das vor dem Einstellen gelten muss.
    .remedy = Siehe Liste, was noch zu tun ist.
Reason-no-job = Kein Auftrag begonnen.

## Trouble

Trouble-port-gone = Die Verbindung zum Adapter ist getrennt.
    .remedy = Stecker und Kabel des Adapters prüfen; sie kommt von selbst wieder.
Trouble-adapter-silent = Der Adapter antwortet nicht.
    .remedy = Stecker des Adapters prüfen; er kommt von selbst wieder.
Trouble-adapter-mute = Der Adapter schweigt, obwohl sein Anschluss neu geöffnet wurde.
    .remedy = Adapter abziehen und neu einstecken; hilft das nicht, einen anderen nehmen.
Trouble-out-of-step = Der Adapter antwortet, aber nicht auf das, was gefragt wird.
    .remedy = Adapter abziehen und neu einstecken; hilft das nicht, einen anderen nehmen.
Trouble-adapter-fault = Der Adapter meldet einen eigenen Fehler.
    .remedy = Adapter abziehen und neu einstecken; hilft das nicht, einen anderen nehmen.
Trouble-restarting = Der Adapter hat seine Einstellungen verloren und wird neu eingerichtet.
    .remedy = Er kommt von selbst wieder; geschieht es oft, seinen Stecker prüfen.
Trouble-modem = An diesem Anschluss antwortet ein Modem.
    .remedy = Ein anderes Gerät nennen: dieser Anschluss ist nicht der Adapter.
Trouble-loop = Nur Gesendetes kommt zurück: loses Kabel, oder Adapter ohne Strom.
    .remedy = Adapter in das Fahrzeug stecken: dort bekommt er Strom.
Trouble-noise = Von diesem Anschluss kommt nur Rauschen.
    .remedy = Die Datenrate des Adapters mit seinem Gerät nennen, oder ein anderes Gerät.
Trouble-talk = Was antwortet, nimmt keine Einstellung eines Diagnoseadapters an.
    .remedy = Adapter abziehen und neu einstecken; hilft das nicht, einen anderen nehmen.
Trouble-not-understood = Der Adapter versteht nicht, was das Fahrzeug gefragt werden soll.
    .remedy = Anderen Adapter nehmen.
Trouble-senders-unknown = Mehrere Steuergeräte antworten. Der Adapter sagt nicht, wer was sendet.
    .remedy = Anderen Adapter nehmen, einen, der die Absender nennt.
Trouble-sender-unknown = Der Adapter sagt nicht, welches Steuergerät antwortet.
    .remedy = Anderen Adapter nehmen, einen, der die Absender nennt.
Trouble-protocol-unknown = Das Fahrzeug antwortet, aber der Adapter nennt den Bus nicht.
    .remedy = Anderen Adapter nehmen.
Trouble-unreadable = Das Fahrzeug antwortet, aber der Text des Adapters ist nicht lesbar.
    .remedy = Es wird von selbst neu gefragt; bleibt es so, anderen Adapter nehmen.
Trouble-late-reply = Der Adapter beendet seine Antworten nicht rechtzeitig.
    .remedy = Es wird von selbst neu gefragt; bleibt es so, anderen Adapter nehmen.
Trouble-interrupted = Der Adapter bricht ab, was gefragt wird.
    .remedy = Es wird von selbst neu gefragt; bleibt es so, anderen Adapter nehmen.
Trouble-spoilt = Die Antworten werden unterwegs beschädigt.
    .remedy = Stecker und Kabel prüfen; es wird von selbst neu gefragt. Bleibt es so, anderen Adapter nehmen.
Trouble-other-request = Die Antworten gehören zu anderen Anfragen.
    .remedy = Es wird von selbst neu gefragt; bleibt es so, anderen Adapter nehmen.
Trouble-repeats = Der Adapter wiederholt nur alte Antworten.
    .remedy = Adapter abziehen und neu einstecken; hilft das nicht, einen anderen nehmen.
Trouble-unsteady = Der Wert ist von Antwort zu Antwort verschieden.
    .remedy = Stecker und Kabel prüfen; es wird von selbst neu gefragt. Bleibt es so, anderen Adapter nehmen.
Trouble-vehicle-silent = Das Fahrzeug antwortet nicht.
    .remedy = Zündung prüfen, und ob der Adapter fest in der Buchse sitzt.
Trouble-search-endless = Die Suche nach dem Fahrzeug kommt zu keinem Ende.
    .remedy = Es wird von selbst neu versucht; prüfen, ob der Adapter fest sitzt.
Trouble-bus-start = Der Bus des Fahrzeugs startet nicht.
    .remedy = Zündung prüfen, und ob der Adapter fest in der Buchse sitzt.
Trouble-bus-trouble = Der Bus des Fahrzeugs stört, was gesendet wird.
    .remedy = Prüfen, ob der Adapter fest sitzt. Sonst darf nichts an der Buchse hängen.
Trouble-only-refusals = Das Fahrzeug verweigert schon die erste Anfrage.
    .remedy = Manche Fahrzeuge sperren ihre Buchse; dann bleibt nur ein Thermometer.
Trouble-unit-silent = Kein Steuergerät antwortet auf diese Anfrage.
    .remedy = Das Fahrzeug selbst antwortet: Header und Kennung in den Fahrzeugdaten prüfen.
Trouble-unit-busy = Das Steuergerät bittet um mehr Zeit und antwortet nicht.
    .remedy = Bleibt es so, die Kennung in den Fahrzeugdaten prüfen.
Trouble-refused-unknown = Das Steuergerät verweigert: es kennt diese Kennung nicht.
    .remedy = Kennung und Header in den Fahrzeugdaten prüfen.
Trouble-refused-locked = Das Steuergerät verweigert: es hält diesen Wert gesperrt.
    .remedy = Fahrzeugdaten mit Kühlmittel oder Thermometer nehmen.
Trouble-refused-now = Das Steuergerät verweigert vorerst: die Bedingungen stimmen nicht.
    .remedy = Weitermachen; vielleicht antwortet es, wenn der Motor läuft.
Trouble-refused = Das Steuergerät verweigert diese Anfrage.
    .remedy = Kennung und Header in den Fahrzeugdaten prüfen.
Trouble-wrong-sender = Ein anderes Steuergerät antwortet als das gefragte.
    .remedy = Header in den Fahrzeugdaten prüfen.
Trouble-not-addressable = Das Steuergerät der Fahrzeugdaten ist auf diesem Bus nicht ansprechbar.
    .remedy = Header in den Fahrzeugdaten prüfen.
Trouble-undecodable = Die Antwort ist anders aufgebaut, als die Fahrzeugdaten sagen.
    .remedy = Byte und Länge der Kennung in den Fahrzeugdaten prüfen.

## Outcome

Outcome-set = Der Getriebeölstand stimmt.
Outcome-set-low = Getriebeölstand eingestellt, aber es fehlt mehr, als die Fahrzeugdaten erlauben.
Outcome-set-high = Getriebeölstand eingestellt, aber mehr zu voll, als die Fahrzeugdaten erlauben.
Outcome-not-set = Noch nicht eingestellt: der Getriebeölstand.
Outcome-set-unsure = Der Getriebeölstand stimmt wahrscheinlich.
Outcome-checked = Der Getriebeölstand war richtig.

## Drivable

Drivable-yes = Es darf fahren.
Drivable-workshop-only = Nur in der Werkstatt bewegen.
Drivable-no = Stehen lassen, nicht fahren; bewegen nur mit angehobenen Antriebsrädern.

## Meaning

Meaning-other-cause = Der Getriebeölstand war richtig: die Beschwerde hat eine andere Ursache. Neues Getriebeöl heilt das nicht. Fehlercodes lesen.
Meaning-driven-low = Es wurde mit zu wenig Getriebeöl gefahren. Nach Rutschen fragen, Fehlercodes lesen, dem Kunden sagen.
Meaning-ask-history = Es war zu wenig, und kein Leck ist zu sehen. Fragen, wer daran gearbeitet hat, und wann.
Meaning-filled-wrong = Es war zu voll. Kalt gefüllt, oder anderes Öl darin? Fragen.
Meaning-worn = Schwarz, verbrannt oder Metall: innen verschlissen. Der Kunde entscheidet.
Meaning-water-in = Milchig: Wasser oder Kühlmittel ist darin. Suchen, wo es hineinkommt.

## Question

Question-symptoms = Warum ist das Fahrzeug hier?
Question-leaks = Unten nachsehen: ist es undicht?
Question-leak-place = Wo ist es undicht?
Question-fluid = Die ersten Tropfen: wie sieht das Getriebeöl aus?

## FindNext

FindNext-key-on = Zündung an. Motor bleibt aus und kalt.
FindNext-key-off = Zündung zehn Minuten aus. Dann Zündung ein, Motor bleibt aus.
FindNext-wait = Zündung an lassen, Motor bleibt aus.
FindNext-charge-battery = Batterie laden. Die Suche geht von selbst weiter.
FindNext-stop-engine = Motor aus. Die Suche braucht ihn aus.
FindNext-start-engine = Niemand unter dem Fahrzeug, Abgasschlauch ins Freie. Dann starten, in P.
FindNext-warm = Motor im Leerlauf warm werden lassen.
FindNext-spot = Nur auf vier Unterstellböcken, weg von Wellen: Getriebeölwanne messen. Thermometerwert melden.
FindNext-cold-soak = Fahrzeug über Nacht stehen lassen, dann neu beginnen.
FindNext-confirm = Zeigt es, was das Thermometer zeigt? Dann bestätigen.
FindNext-by-thermometer = Getriebeölstand mit dem Thermometer einstellen.
FindNext-look-at-link = Adapter ansehen, dann die Suche neu beginnen.
FindNext-nothing = Hier ist nichts mehr zu tun.

## EngineWord

EngineWord-idling = Er ist im Leerlauf.
EngineWord-stopped = Er ist aus.

## Surface

Surface-tape = Mattes Klebeband auf der Getriebeölwanne aus Metall.
Surface-matt-paint = Matter Lack auf der Getriebeölwanne aus Metall.
Surface-plastic = Getriebeölwanne aus Kunststoff.
Surface-bare-metal = Blankes Metall: für Infrarot abgelehnt, es zeigt nur die Umgebung.
Surface-contact = Kontaktfühler an der Getriebeölwanne aus Metall.
Surface-stream = Fühler im Getriebeöl selbst.
Surface-air = Keine Oberfläche: die Luft unter dem Fahrzeug.

## Narrowing

Narrowing-spot-on-tape = Eine Thermometermessung auf Klebeband oder mattem Lack an der Getriebeölwanne.
Narrowing-air-under-vehicle = Die Temperatur der Luft unter dem Fahrzeug.

## Symptom

Symptom-slips = Es rutscht im Gang durch.
Symptom-flares = Der Motor dreht zwischen zwei Gängen hoch.
Symptom-late = Der Gang greift spät.
Symptom-hard = Der Gang greift hart.
Symptom-whine = Es heult.
Symptom-shudder = Es ruckelt.
Symptom-lamp = Eine Lampe ging an.
Symptom-leak = Getriebeöl unter dem Fahrzeug gesehen.
Symptom-worked-on = Kürzlich wurde daran gearbeitet.
Symptom-none = Nichts ist aufgefallen.

## Leak

Leak-dry = Trocken.
Leak-damp = Feucht: kein Tropfen hängt.
Leak-drops = Tropfen bilden sich.
Leak-runs = Es läuft.

## LeakPlace

LeakPlace-pan = An der Getriebeölwanne.
LeakPlace-pipe-or-plug = Am Überlaufrohr oder einer Schraube.
LeakPlace-cooler-line = An einer Kühlerleitung.
LeakPlace-axle-seal = An einem Achswellendichtring.
LeakPlace-converter-housing = Am Wandlergehäuse.
LeakPlace-not-seen = Die Stelle ist nicht zu sehen.

## FluidLook

FluidLook-red = Rot, oder wie neu.
FluidLook-brown = Braun.
FluidLook-black = Schwarz.
FluidLook-burnt = Riecht verbrannt.
FluidLook-milky = Milchig.
FluidLook-metal = Metall darin.

## Alarm

Alarm-air = Schlechte Luft: Schwindel, Kopfschmerz.
Alarm-burn = Jemand hat sich verbrannt.
Alarm-caught = Jemand ist eingeklemmt.
Alarm-fire = Feuer.

## Part

Part-filter = Der alte Filter, vollgesogen.
Part-cooler = Der Kühler und seine Leitungen, entleert.
Part-pan = Die Getriebeölwanne, abgebaut: was beim Ablassen darin blieb.
Part-converter = Der Wandler, entleert.

## Refusal

Refusal-no-job = Kein Auftrag begonnen: erst `tell start`.
Refusal-job-running = Ein Auftrag ist im Gang: erst mit `tell done` oder `tell abort` beenden.
Refusal-not-yet = Das kommt später im Auftrag; ein Schritt davor ist noch zu tun.
Refusal-already-done = Das ist schon gemeldet; `tell undo` nimmt es zurück.
Refusal-not-go = Es gilt gerade nicht `go`, also kann der Getriebeölstand jetzt nicht stimmen.
Refusal-not-the-sign = Dieses Fahrzeug zeigt den Getriebeölstand an einem anderen Zeichen: melden, wonach der Bildschirm fragt.
Refusal-port-closed = Die Kontrollschraube ist nicht als offen gemeldet: erst `tell flowing`.
Refusal-port-open = Die Kontrollschraube ist noch offen: schließen und erst `tell closed`.
Refusal-shown-by-vehicle = Das zeigt das Fahrzeug selbst; eine Person kann es nicht bestätigen.
Refusal-not-needed = Die Fahrzeugdaten verlangen das nicht.
Refusal-not-level = Das Fahrzeug steht nicht waagerecht genug: der Getriebeölstand wäre weiter falsch, als die Fahrzeugdaten erlauben.
Refusal-impossible-amount = Diese Menge kann nicht sein: mehr, als das Getriebe fasst, oder nicht mehr als nichts.
Refusal-more-out-than-in = Es wäre mehr ausgelaufen, als je darin war; neu messen.
Refusal-useless-surface = Blankes Metall spiegelt die Umgebung: mattes Klebeband aufkleben und darauf messen.
Refusal-impossible-value = Kein Fahrzeug in einer Werkstatt hat diesen Wert; neu messen.
Refusal-amount-unknown = Die Fahrzeugdaten sagen nicht, wie viel das fasst: messen und die Menge melden.
Refusal-base-unknown = Die Fahrzeugdaten nennen Radstand und Spurweite nicht: auch diese melden.
Refusal-corner-misread = Die vier Ecken liegen nicht in einer Ebene: eine wurde falsch abgelesen. Neu messen.
Refusal-wrong-position = Als Nächstes kommt eine andere Stellung des Wählhebels; der Bildschirm zeigt, welche.
Refusal-too-early = Der Wählhebel stand nicht lange genug in der Stellung davor; der Bildschirm zeigt, wie lange.
Refusal-no-such-job = Das Protokoll enthält keinen Auftrag mit dieser Nummer.
Refusal-not-a-hash = Das ist kein SHA-256: 64 Hexadezimalziffern in Kleinschrift.
Refusal-nothing-to-undo = Es gibt nichts, das zurückgenommen werden könnte.
Refusal-too-long = Der Text ist zu lang: höchstens 200 Zeichen.
Refusal-hidden-character = Der Text enthält ein Zeichen, das man nicht sieht, das aber ändert, was man sieht.
Refusal-no-such-event = Ein Ereignis mit dieser Nummer gab es noch nicht; was als Nächstes kommt, wird gesendet.
Refusal-too-many = Dieser Auftrag hat so viele Bemerkungen, Fotos und Fahrzeugnamen, wie einer haben darf: den Rest anderswo aufschreiben.
Refusal-too-fast = Das ist mehr, als ein Mensch in so kurzer Zeit schreibt: einige Sekunden warten und noch einmal melden.
Refusal-not-understood = Das ist keine Anfrage der Schnittstelle.
Refusal-journal-full = Das Protokoll kann nicht geschrieben werden, also ist nichts zugesagt. Speicherplatz frei machen.
Refusal-band-decided = Welcher Bereich gilt, wurde beim Beginn des Auftrags entschieden. Ist er falsch, den Auftrag beenden, die Lufttemperatur melden und neu beginnen.
Refusal-needs-adapter = Diese Fahrzeugdaten gehen nach dem Kühlmittel, wie es das Fahrzeug meldet; ohne Adapter liest das niemand. Fahrzeugdaten mit dem Signal `spot` oder `fluid` wählen.
Refusal-no-such-sheet = Der Dienst hat keine Fahrzeugdaten dieses Namens bekommen; `serve --sheets FOLDER` nennt einen Ordner davon.
Refusal-sheet-unconfirmed = Niemand hat diese Fahrzeugdaten hier bestätigt: `standpipe sheet check FILE` nennt, was, `standpipe sheet confirm FILE` bestätigt sie.
Refusal-no-sheet = Keine Fahrzeugdaten angegeben, also kann kein Getriebeölstand eingestellt werden: neu beginnen mit `--sheet FILE`.
Refusal-not-searching = Keine Suche nach einer Kennung ist im Gang: `standpipe find` beginnt eine.
Refusal-no-such-candidate = Diese Kennung ist nicht die, die vorn liegt; der Bildschirm zeigt, welche es ist.
Refusal-not-agreed = Noch stimmt kein Thermometer damit überein: erst die Getriebeölwanne messen und `spot` melden.
Refusal-not-settled = Noch kann es mehr als eine Kennung sein: weiter warm werden lassen.
Refusal-ended = Der Auftrag ist beendet; `tell start` beginnt einen neuen.

## Shortfall

Shortfall-nothing-ran-out = Bei `go` lief nichts aus, also ist es zu wenig. Nachfüllen, dann bei richtiger Temperatur noch einmal prüfen.
Shortfall-stays-dry = Bei `go` lief nichts aus, obwohl mehr nachgefüllt wurde, als fehlen kann. Füllen beenden: nach Leck, anderer Schraube und Stand des Fahrzeugs sehen.
Shortfall-gush-only = Nur der erste Schwall kam: es ist zu wenig. Einfüllen, was fehlt, und die Zugabe, dann noch einmal prüfen.
Shortfall-ran-out-too-much = Viel mehr lief aus als der Überschuss: falsche Schraube, oder loses Überlaufrohr? Einfüllen, was fehlt, dann noch einmal prüfen.
Shortfall-amount-off = Die Menge darin ist nicht die vorgeschriebene, oder das alte Öl wurde nicht ganz abgelassen. Öl ganz ablassen und die vorgeschriebene Menge einfüllen.
Shortfall-gauge-low = Der Messstab zeigt unter der Tabelle: es ist zu wenig. Einfüllen, was nach der Ablesung fehlt, dann neu ablesen.
Shortfall-gauge-high = Der Messstab zeigt über der Tabelle: es ist zu voll. Etwas absaugen und messen, dann neu ablesen.
Shortfall-not-read-twice = Keine zwei Ablesungen des Messstabs im Bereich stimmen auf 2 mm überein. Abwischen, bis Anschlag einschieben, neu ablesen.
Shortfall-not-looked-again = Niemand hat den Getriebeölstand nach der Fahrt noch einmal geprüft. Noch einmal waagerecht stellen und prüfen.
Shortfall-not-opened = Die Kontrollschraube wurde nicht geöffnet, während `go` galt. Auf die nächste richtige Temperatur warten und dann einstellen.
Shortfall-opened-before-go = Die Kontrollschraube war offen, bevor `go` galt. Was da auslief, fehlt in der Zugabe; bei richtiger Temperatur noch einmal einstellen.
Shortfall-no-trickle = Der Strahl war noch kein dünner Faden, als geschlossen wurde: es ist zu voll. Bei richtiger Temperatur noch einmal öffnen und auslaufen lassen.
Shortfall-too-hot-before-trickle = Das Getriebeöl wurde zu heiß, bevor der Strahl ein dünner Faden war. Abkühlen lassen, die genannte Menge einfüllen und noch einmal einstellen.
Shortfall-closed-late = Die Kontrollschraube wurde erst geschlossen, als das Getriebeöl zu heiß war: der Getriebeölstand stimmt nicht. Abkühlen lassen und noch einmal einstellen.
Shortfall-closed-outside-go = Es galt nicht `go`, als geschlossen wurde. Bei richtiger Temperatur noch einmal einstellen.
Shortfall-precondition-open = Etwas wurde nie bestätigt: siehe, was noch zu tun ist. Erledigen und noch einmal einstellen.
Shortfall-not-level = Das Fahrzeug stand nicht waagerecht. Waagerecht stellen und noch einmal einstellen.
Shortfall-started-warm = Das Fahrzeug war warm, als der Auftrag begann. Abkühlen lassen, bis Kühlmittel und Luft gleich sind, dann neu beginnen.
Shortfall-sensor-untrusted = Der Temperatur war nicht zu trauen, als es darauf ankam. Mit einem Thermometer an der Getriebeölwanne vergleichen: noch ist nicht bekannt, welches falsch ist.
Shortfall-link-lost-while-open = Der Adapter ging verloren, während die Kontrollschraube offen war. Mit fester Verbindung noch einmal einstellen.
Shortfall-balance-open = Was auslief, passt nicht zu dem, was eingefüllt wurde. War es vorher zu wenig, nicht ganz abgelassen, oder gibt es ein Leck? Bald nachprüfen.
Shortfall-unmeasured = Nicht gemessen: was abgelassen, eingefüllt oder ausgelaufen ist. Die Mengen können den Getriebeölstand nicht bestätigen.
Shortfall-too-hot = Das Getriebeöl war über dem Bereich. Motor aus, abkühlen lassen, mit kaltem Fahrzeug neu beginnen.
Shortfall-thin-evidence = Von Menschen gemeldet: nicht alles war da, zwei Messungen im Bereich, die letzte höchstens 2 min vor dem Schließen, gemessener Stand des Fahrzeugs und Strahl über 15 s hinaus.
Shortfall-leak-seen = Ein Leck wurde gemeldet, und niemand hat seitdem nachgesehen. Erst beheben.
Shortfall-aborted = Der Auftrag wurde von Hand beendet.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Rauskommen. Dann { $shims } legen und neu messen.
shims-both-rear = { $depth } unter beide hinteren Böcke
shims-both-front = { $depth } unter beide vorderen Böcke
shims-both-left = { $depth } unter beide linken Böcke
shims-both-right = { $depth } unter beide rechten Böcke
shim-front-left = { $depth } vorn links
shim-front-right = { $depth } vorn rechts
shim-rear-left = { $depth } hinten links
shim-rear-right = { $depth } hinten rechts
shims-each = { $parts } unter die Böcke
fill-amount = { $amount } einfüllen: was rauskam, und die Zugabe.
fill-first-amount = Motor bleibt aus. Erst { $amount } einfüllen.
fill-more-through-the-tube = Zu wenig Öl: { $amount } durch das Einfüllrohr nachfüllen.
fill-more-amount = Kontrollschraube handfest schließen. Zu wenig Öl: { $amount } nachfüllen.
draw-out-amount = Zu voll: { $amount } aus dem Einfüllrohr absaugen und messen.
add-that-amount = Schraube handfest schließen. Dann { $amount } einfüllen.
fill-here-amount = Zu wenig Öl: { $amount } durch diese Öffnung nachfüllen.
let-out-amount = Zu voll: Motor bleibt aus. { $amount } auslaufen lassen und messen.
not-driven-amount = Stehen lassen, nicht fahren. Es fehlen { $amount }.
open-level-hole = Kontrollbohrung jetzt öffnen, von der Seite. Schutzbrille auf.
watch-until-it-drips = Von der Seite zusehen. Melden, wenn es nur noch tropft.
be-ready-at-the-hole = Unter das Fahrzeug gehen. Kontrollbohrung geschlossen lassen.
close-hole-not-right = Kontrollbohrung schließen. Falsche Temperatur.
close-hole-too-hot = Kontrollbohrung schließen. Zu heiß.
pipe-out-plug-in = Rohr raus, sofort Schraube handfest rein.
drain-and-measure = Öl ablassen. Menge und Temperatur messen.
fill-that-of-the-data = Die Menge der Fahrzeugdaten einfüllen.
close-up-cap-on = Ablassschraube handfest rein, Kappe aufs Einfüllrohr. Schlauch und Auffangwanne weg.
cap-on-check-adapter = Kappe drauf lassen. Stecker des Adapters prüfen.
gauge-and-cloth-ready = Messstab und Tuch bereithalten. Kappe drauf lassen.
fill-more-tube = Zu wenig Öl: durch das Einfüllrohr nachfüllen.
cap-locked-tighten = Kappe aufs Einfüllrohr, verriegelt. Erst Motor aus, dann Ablassschraube festziehen.
close-up-plugs = Schrauben handfest rein. Schlauch und Auffangwanne weg.

## The result

level-low-by = Getriebeölstand eingestellt, { $amount } zu wenig.
level-high-by = Getriebeölstand eingestellt, { $amount } zu voll.
known-to-within = Bekannt auf ±{ $amount }.
known-to = Bekannt auf { $amount }.
was-low-by-more = Es fehlten mehr als { $amount }.
was-right-within = Es war richtig, bekannt auf ±{ $amount }.
was-low-by = Es fehlten etwa { $amount }, ±{ $within }.
was-high-by = Es war etwa { $amount } zu voll, ±{ $within }.
less-than-before = { $amount } weniger darin als vorher.
more-than-before = { $amount } mehr darin als vorher.
as-much-as-before = Gleich viel darin wie vorher.
mend-leak-first = Erst das Leck beheben. Dann den Getriebeölstand noch einmal einstellen.
find-why-it-stays-low = Vor dem Fahren klären, warum es zu wenig bleibt. Dann noch einmal einstellen.
recheck-on-the-day = Getriebeölstand nachprüfen, kalt, am Tag im Bericht.
fill-then-open-again = { $amount } einfüllen, dann bei richtiger Temperatur die Kontrollschraube öffnen. Zum dünnen Faden werden lassen.
open-again-let-run = Kontrollschraube bei richtiger Temperatur noch einmal öffnen, Fahrzeug waagerecht. Zum dünnen Faden werden lassen.
put-right-and-fill = Erledigen, was unten steht, { $amount } einfüllen. Dann noch einmal einstellen.
put-right-and-set-again = Erledigen, was unten steht. Dann den Getriebeölstand noch einmal einstellen.

## What comes next: at most eight words

next-stands-level-hose = Unterstellböcke, waagerecht, Abgasschlauch.
next-drain-fill-port-first = Öl ablassen, Einfüllschraube zuerst.
next-measure-how-it-stands = Messen, wie es steht.
next-read-the-container = Gebinde lesen.
next-drain = Öl ablassen.
next-pipe-back-in = Überlaufrohr wieder rein, von Hand.
next-fill-and-circulate-again = Neu einfüllen und neu umwälzen.
next-fill = Einfüllen, was rauskam, und die Zugabe.
next-close-up-come-out = Beide Schrauben rein, Auffangwanne weg, rauskommen.
next-come-out-engine-starts = Rauskommen. Dann startet der Motor.
next-brake-and-selector = Fuß auf der Bremse, Wählhebel durch alle Stellungen.
next-stay-out-until-near = Draußen bleiben, bis die richtige Temperatur nahe ist.
next-go-below-when-near = Unter das Fahrzeug, wenn richtige Temperatur nahe ist.
next-open-at-the-word = Kontrollschraube geschlossen lassen, bis das Wort kommt.
next-read-once-more = Abwischen und noch einmal ablesen.
next-thin-thread-close = Dünner Faden: handfest schließen.
next-engine-off-jug-plugs = Motor aus, Messbecher ablesen, Schrauben festziehen.
next-open-only-when-right = Erst bei richtiger Temperatur noch einmal öffnen.
next-let-it-cool = Abkühlen lassen; die richtige Temperatur kommt wieder.
next-right-plug-pipe-in = Motor aus, Messbecher ablesen. Richtige Schraube, Überlaufrohr drin?
next-look-again = Bei richtiger Temperatur noch einmal prüfen.
next-wipe-dry-look = Trocken wischen, rauskommen, nach Lecks suchen.
next-engine-on-look-for-drops = Motor wieder starten, nach Tropfen suchen.
next-lower-and-drive = Rauskommen. Dann Fahrzeug absenken und fahren.
next-drive-a-short-way = Fahrzeug absenken, ein kurzes Stück fahren.
next-finish = Bericht abschließen.
next-check-again = Nachprüfen, kalt, am Tag im Bericht.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Kontrollschraube schließen, falls sie offen ist.
leave-the-engine = Motor so lassen, wie er ist.
check-adapter-plug = Stecker des Adapters prüfen.
check-which-device = Prüfen, welches Gerät genannt ist.
use-another-adapter = Anderen Adapter nehmen.
check-ignition-and-plug = Zündung und Stecker des Adapters prüfen.
wait-until-it-answers = Warten, bis es antwortet.
check-the-sheet = Fahrzeugdaten prüfen.
none-yet = { $signal }: noch kein Wert
vehicle-silent = Fahrzeug stumm
adapter-silent = Adapter stumm
adapter-gone = Adapter weg
no-adapter = kein Adapter
adapter-in-trouble = Adapter gestört
signal-refused = { $signal }: verweigert
signal-missing = { $signal }: kein Wert
name-reading = Temperatur
name-fluid = Getriebeöl
name-coolant = Kühlmittel
name-spot = Thermometer
name-display = Anzeige
name-lamp = Lampe

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } Runde, { $dwell } s in jeder Stellung
   *[other] { $rounds } Runden, { $dwell } s in jeder Stellung
}
move-on-round = weiterschalten, Runde { $round } von { $rounds }
seconds-more-round = noch { $seconds } s, Runde { $round } von { $rounds }
brake-begin-in = Fuß auf der Bremse lassen. In { $position } beginnen.
brake-stay-in = Fuß auf der Bremse lassen. In { $position } bleiben.
brake-back-to = Fuß auf der Bremse lassen. Zurück nach { $position }.
brake-move-to = Fuß auf der Bremse lassen. Schalten nach { $position }.
offer-begin-in = Steht in { $position }: beginnen
offer-back-in = Jetzt zurück in { $position }
offer-now-in = Jetzt in { $position }

## Why, with numbers

head-fluid = Getriebeöl
head-coolant = Kühlmittel
head-sump = Getriebeölwanne
head-display = Anzeige
head-lamp = Bereich der Lampe
signal-below-band = { $signal } { $celsius } ± { $u }, unter dem Bereich { $band }.
signal-above-band = { $signal } { $celsius } ± { $u }, über dem Bereich { $band }.
signal-inside-band = { $signal } { $celsius } ± { $u }, im Bereich { $band }.
fluid-about = Getriebeöl etwa { $celsius } ± { $u }.
better-reading = Besser: { $reading } (± { $u }).
runs-out-in-time = Braucht etwa { $needs } min zum Auslaufen, hat { $window }.
runs-out-tight = Braucht etwa { $needs } min zum Auslaufen, hat { $window }. Knapp: alles zur Hand, sofort öffnen.
runs-out-too-long = Braucht etwa { $needs } min zum Auslaufen, hat { $window }. Rechtzeitig schließen, den Rest in einer zweiten Runde.
warming-a-minute = Wird { $rate } wärmer je Minute.
cooling-a-minute = Wird { $rate } kälter je Minute.

## The search for the identifier

identifier-found = Kennung: gefunden.
identifier-not-found = Kennung: nicht gefunden.
identifiers-asked = Kennung: { $asked } von etwa { $planned } gefragt
identifier-stopped = Kennung: angehalten.
identifier-is-left = Kennung: { $place } bleibt übrig.
identifiers-may-be-it = Kennung: noch { $left } möglich.
it-shows = Es zeigt { $celsius }.
seconds-left = noch etwa { $count } s
minutes-left = noch etwa { $count } min

## Nothing is known

close-port-nothing-known = Kontrollschraube schließen. Nichts ist bekannt.
keep-port-closed-nothing-known = Kontrollschraube geschlossen lassen. Nichts ist bekannt.
leave-engine-nothing-known = Motor so lassen, wie er ist. Nichts ist bekannt.
keep-port-closed = Kontrollschraube geschlossen lassen.
leave-gauge-nothing-known = Messstab liegen lassen. Nichts ist bekannt.
without-the-daemon = ohne den Dienst
daemon-does-not-answer = Der Dienst antwortet nicht. Er macht weiter, wo er war, sobald er neu gestartet ist.
no-daemon-for = kein Dienst, { $seconds } s
a-person-tells-it = Eine Person meldet sie.
last-reading-too-old = Die letzte Messung ist zu alt. Sie kommt von selbst wieder.

## Names and counts on a screen

job-number = Auftrag { $job }
data-unconfirmed = Niemand hat diese Fahrzeugdaten bestätigt. Kein Auftrag beginnt damit.
data-guessed = Fahrzeugdaten sind geschätzt: das ± ist größer. Der Plan sagt, was am meisten hilft.
look-again-in = In etwa { $minutes } min noch einmal prüfen.
still-open = Noch zu tun: { $what }.
until-window-opens = bis zur richtigen Temperatur
until-window-closes = noch bei richtiger Temperatur
until-read-again = bis zur nächsten Messung
until-back-in-band = zum Abkühlen, Motor aus
without-a-reading = ohne Messung
torque-pipe = Überlaufrohr { $torque }
torque-check-plug = Kontrollschraube { $torque }
torque-fill-plug = Einfüllschraube { $torque }
told-by-people = gemeldet: { $what }
signal-seconds-ago = { $signal }, vor { $count } s
signal-minutes-ago = { $signal }, vor { $count } min
step-of = Schritt { $step } von { $steps }: { $name }
step-prepare = vorbereiten
step-drain = Öl ablassen
step-fill = einfüllen
step-circulate = umwälzen
step-window = Temperatur
step-run-out = auslaufen
step-trickle = dünner Faden
step-close = schließen
step-torque = festziehen
step-test-drive = Probefahrt
step-recheck = nachprüfen
amount-drained = abgelassen { $amount }
amount-filled = eingefüllt { $amount }
amount-ran-out = ausgelaufen { $amount }
amount-should-run-out = soll auslaufen { $amount }
amounts-at = { $amounts } (bei { $celsius })

## The one huge word

word-wait = warten
word-go = jetzt
word-too-hot = zu heiß
word-no-reading = kein Signal

## What can be told: buttons

offer-start-the-job = Auftrag beginnen
offer-another-kind-of-job = Andere Art von Auftrag
offer-choose-another-sheet = Andere Fahrzeugdaten wählen
offer-hot-day-the-air-outside-in-the-shade = Heißer Tag? Luft im Freien, im Schatten
offer-no-drive-is-felt-in-gear = Im Gang ist kein Zug zu spüren
offer-it-differs-not-this-fluid = Verschieden: nicht dieses Öl
offer-drained-how-much = Abgelassen: wie viel
offer-filled-how-much = Eingefüllt: wie viel
offer-it-was-in-and-more-came-out-how-much = War drin, und mehr kam raus: wie viel
offer-ran-out-how-much = Ausgelaufen: wie viel
offer-it-still-flows = Es fließt noch
offer-filled-more-how-much = Nachgefüllt: wie viel
offer-fluid-flows-from-the-check-port = Öl fließt aus der Kontrollschraube
offer-nothing-runs-out = Es kommt nichts
offer-it-only-drips = Es tropft nur
offer-it-is-a-thin-thread-now = Es ist ein dünner Faden
offer-it-stands-at-the-lower-edge = Es steht an der Unterkante
offer-it-stands-below-the-edge-how-far = Unter der Unterkante: wie weit
offer-it-runs-out-over-the-edge = Es läuft über die Unterkante aus
offer-fluid-runs-out-there = Dort läuft Öl aus
offer-drawn-out-how-much = Abgesaugt: wie viel
offer-ran-out-from-the-jug-how-much = Ausgelaufen, laut Messbecher: wie viel
offer-plugs-tightened-to-the-torques = Schrauben mit Drehmoment festgezogen
offer-driven-no-leak-seen = Gefahren, kein Leck gesehen
offer-write-the-record = Bericht abschließen
offer-check-port-closed-hand-tight = Kontrollschraube geschlossen, handfest
offer-fluid-flows-now-at-go = Öl fließt jetzt, Temperatur ist richtig
offer-it-leaks-damp-drops-runs = Undicht: feucht, Tropfen, läuft
offer-how-it-stands-measured = Wie es steht, gemessen
offer-the-gauge-shows = Der Messstab zeigt
offer-the-number-on-the-display = Die Zahl auf der Anzeige
offer-a-thermometer-s-reading = Wert vom Thermometer
offer-it-stands-on-four-stands = Steht auf vier Unterstellböcken
offer-the-lift-is-known-to-be-level = Hebebühne steht sicher waagerecht
offer-the-exhaust-goes-outside = Abgas geht ins Freie
offer-the-brake-is-held = Die Bremse ist getreten
offer-the-cooler-pin-is-in = Stift am Kühlerventil ist drin
offer-rounds-done-selector-back-in-p-parking-brake = Runden fertig, P, Feststellbremse an
offer-p-parking-brake-on-chocks = P, Feststellbremse an, Keile
offer-the-fill-port-is-open = Die Einfüllschraube ist offen
offer-container-read-the-same-words = Gebinde gelesen: gleiche Worte
offer-the-pipe-is-in = Das Überlaufrohr ist drin
offer-both-plugs-in-tray-and-hose-away = Schrauben drin, Wanne und Schlauch weg
offer-i-am-out-and-clear = Bin draußen
offer-the-cooler-pin-is-out = Stift am Kühlerventil ist raus
offer-no-leak-seen = Kein Leck gesehen
offer-covers-and-wheel-are-back-on = Abdeckungen und Rad wieder dran
offer-the-service-mode-is-on = Servicemodus ist an
offer-ready-is-off-key-below = READY ist aus, Schlüssel unten
offer-it-is-dry = Es ist trocken
offer-everybody-is-safe = Alle sind in Sicherheit
offer-it-started-cold = Kalt gestartet
offer-selector-in-the-position-of-the-look = Wählhebel in der Prüfstellung
offer-it-is-so = Es ist so
offer-recheck-of-number = Früheren Auftrag nachprüfen: Nummer
offer-the-check-port-is-open-fluid-flows = Kontrollschraube offen, Öl fließt
offer-the-check-port-is-open-nothing-comes = Kontrollschraube offen, es kommt nichts
offer-old-fluid-went-with-a-part = Altes Öl ging mit einem Teil weg
offer-kept-back-as-a-sample-how-much = Als Probe behalten: wie viel
offer-four-heights-front-left-right-rear-left-righ = Vier Höhen: vorn links, rechts, hinten links, rechts
offer-a-remark-for-the-record = Bemerkung für den Bericht
offer-which-vehicle-plate-or-order = Fahrzeug: Kennzeichen, Auftragsnummer
offer-write-the-record-now = Bericht jetzt abschließen
offer-end-the-job-without-a-level = Auftrag ohne Getriebeölstand beenden
offer-somebody-is-in-danger = Jemand ist in Gefahr
offer-spilled-at-the-drain-by-eye-how-much = Verschüttet beim Ablassen, geschätzt
offer-spilled-while-filling-by-eye-how-much = Verschüttet beim Einfüllen, geschätzt
offer-spilled-at-the-check-port-by-eye-how-much = Verschüttet, geschätzt: Kontrollschraube
offer-it-is-the-fluids = Das ist das Getriebeöl: { $place }
offer-lamp-too-cold = Lampe zu kalt: { $shows }
offer-lamp-right = Lampe richtig: { $shows }
offer-lamp-too-hot = Lampe zu heiß: { $shows }

## What is asked with a choice

choice-check = nur Getriebeölstand prüfen
choice-alone = Wechsel, eine Person allein
choice-check-alone = nur prüfen, eine Person allein

## On every screen

say-next = Danach: { $what }
say-balance = Mengen: { $what }
say-undo = Zurücknehmen: { $what }
hold-to-tell = zum Bestätigen halten
hold-longer = Etwas länger halten: { $what }.
told = Eingetragen.
refused = Nicht eingetragen: { $why }
not-told-no-contact = Nicht eingetragen: kein Kontakt.
let-be = So lassen

## The terminal

term-open = zu tun: { $what }
term-twice = (zweimal)
term-more = m mehr
term-more-page = m mehr ({ $page } von { $pages })
term-other-seat = i anderer Platz
term-undo = u zurücknehmen: { $what }
term-leave = q verlassen
term-press-again = { $what }: noch einmal { $key } drücken.
term-nothing-to-take-back = Nichts aus der letzten Minute kann zurückgenommen werden.
term-like-amount = wie 2.4L 22C
term-like-depth = wie 3mm
term-like-level = Neigung längs und quer, wie 0.1deg -0.2deg
term-like-spot = wie 38.5C tape; { $surfaces }
term-like-temperature = wie 41C
term-like-number = seine Nummer: { $names }
term-then-enter = dann Eingabetaste

## The page

page-connecting = verbindet
page-nothing-known-yet = Noch ist nichts bekannt.
page-pipe-nothing-known = Das Überlaufrohr: nichts ist bekannt
page-pipe-shows = Das Überlaufrohr: { $celsius }, Bereich { $low } bis { $high }
page-positions = Stellungen des Wählhebels
page-still-open = Noch zu tun
page-cautions = Warnungen
page-more = Mehr
page-elsewhere = Andere Seiten
page-seat-inside = Der Platz innen
page-seat-under = Der Platz unter dem Fahrzeug
page-jobs = Aufträge und Berichte
page-plan = Plan
page-data = Fahrzeugdaten
page-sound = Ton
page-sound-on = Ton ist an
page-sound-off = Ton ist aus
page-volume = Lautstärke
page-vibration-on = Vibration ist an
page-vibration-off = Vibration ist aus
page-hear-all = Alle anhören
page-tell = Eintragen
page-close = Fenster schließen
page-pair-title = Diesen Browser koppeln
page-pair-where = Der Code steht im Terminal des Dienstes; standpipe page pair zeigt einen neuen.
page-code = Code
page-pair-clear = Diese Seite ist nicht verschlüsselt: wer in diesem Netz lauscht, kann mitlesen und den Code nehmen.
page-pair = Koppeln
page-no-contact = kein Kontakt
page-no-contact-for = kein Kontakt, { $seconds }
page-without-contact = ohne Kontakt
page-no-daemon = Kein Kontakt zum Dienst. Er kommt von selbst wieder.
page-leave-engine = Motor so lassen, wie er ist. Nichts ist bekannt.
page-close-port-if-open = Kontrollschraube schließen, falls sie offen ist. Nichts ist bekannt.
page-how-much = Wie viel
page-how-warm = Wie warm es war
page-depth = Abgelesen oder gemessen
page-pitch = Neigung längs, Bug hoch ist plus
page-roll = Neigung quer, linke Seite hoch ist plus
page-temperature = Temperatur
page-thermometer-shows = Das Thermometer zeigt
page-held-to = Angehalten oder gerichtet auf
page-in-your-words = In eigenen Worten
page-which = Welches
page-degrees = Grad
page-no-job = Noch kein Auftrag.
page-job = Auftrag { $job }, { $day }

## What can be taken back

undo-level = die gemessene Lage
undo-drained = die abgelassene Menge
undo-filled = die eingefüllte Menge
undo-ran-out = die ausgelaufene Menge
undo-gauge = die Ablesung am Messstab
undo-answer = die letzte Antwort
undo-selector = Wählhebel in { $position }
undo-trickle = der dünne Faden
undo-drips = das Tropfen
undo-torqued = die festgezogenen Schrauben
undo-test-driven = die Probefahrt

## How a bay is

status-job = Auftrag { $job } läuft.
status-adapter = Adapter: { $what }
status-by-people = Adapter: keiner, alles melden Menschen
status-port-shut = Adapter: { $what }, seine Schnittstelle ist zu
status-vehicle = Fahrzeug: antwortet über { $what }
status-vehicle-silent = Fahrzeug: keine Antwort
status-reading = Letzter Messwert: { $celsius }, vor { $age }
status-no-reading = Letzter Messwert: keiner
status-disk = Journal: { $free } frei auf seinem Datenträger
status-disk-silent = Journal: sein Datenträger antwortet nicht
status-clock = Uhr: { $time }
status-clock-behind = Uhr: { $time }, geht { $behind } nach
status-clients = Verbunden: { $here } von { $most }, diese Abfrage mitgezählt
status-running = Dienst: Version { $version }, läuft seit { $time }

## Health

Health-healthy = Alles ist da, was ein Auftrag braucht.
Health-waiting = Der Dienst läuft und wartet: Noch kann nichts gelesen werden.
Health-needs-a-hand = Der Dienst läuft, aber jemand muss etwas tun.

## Ailment

Ailment-no-adapter = Der Adapter ist nicht da oder antwortet nicht.
    .remedy = Stecker und Kabel prüfen; er kommt von selbst wieder.
Ailment-no-vehicle = Das Fahrzeug antwortet nicht.
    .remedy = Prüfen, ob der Adapter fest in der Buchse sitzt.
Ailment-no-reading = Die Temperatur der Prüfung wird nicht gelesen.
    .remedy = Einige Sekunden warten; dann die Kennung in den Fahrzeugdaten prüfen.
Ailment-disk-full = Der Datenträger des Journals ist fast voll.
    .remedy = Vor dem nächsten Auftrag Platz schaffen.
Ailment-disk-slow = Der Datenträger des Journals ist langsam: Ereignisse warten darauf.
    .remedy = Eine andere Karte oder Platte für das Journal nehmen.
Ailment-clock-behind = Die Uhr geht nach: Das Journal kennt schon Späteres.
    .remedy = Uhr stellen: Berichte tragen ihr Datum.

## ClosureCause

ClosureCause-opened-early = Es war offen, bevor die Temperatur richtig war: was der Wandler aufgenommen hätte, lief mit aus. Einfüllen, dann neu einstellen.
ClosureCause-engine-stopped = Der Motor ging aus, während es offen war: was aus dem Wandler zurückläuft, lief mit aus. Neu einstellen.
ClosureCause-wrong-temperature = Eine Menge kam ohne ihre Temperatur, oder mit einer falschen: warmes Öl braucht mehr Platz. Menge und Wärme zusammen messen.
ClosureCause-was-low-before = Vor dem Auftrag war zu wenig darin: ein Teil der Zugabe hat das ausgeglichen. Fragen, seit wann, und nach einem alten Leck sehen.
ClosureCause-not-all-caught = Nicht alles, was auslief, wurde aufgefangen. Eintragen, was verschüttet wurde, geschätzt.
ClosureCause-leak = Öl geht anderswo hinaus. Schrauben, Wannendichtung und Kühlerleitungen ansehen, bevor es fährt.
ClosureCause-was-high-before = Vor dem Auftrag war zu viel darin.
ClosureCause-tube-not-seated = Das Überlaufrohr ist nicht bis Anschlag drin: Öl lief daneben aus, es fehlt. Auf sein Drehmoment festziehen, dann neu einstellen.
ClosureCause-drained-not-fully = Es wurde weniger abgelassen, als die Fahrzeugdaten erwarten: mehr altes Öl ist noch drin. Am Getriebeölstand ändert das nichts.

## Cause

Cause-temperature = Beim Schließen war das Öl nicht in der Mitte des Bereichs.
Cause-tilt = Das Fahrzeug stand nicht genau waagerecht.
Cause-warming = Das Öl wurde wärmer, während es tropfte: über dem Rand stand mehr als sonst.
Cause-amount = Was eingefüllt wurde, weicht von der angegebenen Menge ab, soweit Gefäße das zeigen.
Cause-guess = Was in den Fahrzeugdaten geschätzt ist.
Cause-residual = Der Film, der noch über dem Rand stand, ist anders als beim üblichen dünnen Faden.

## Fault

Fault-code-stored = Das Fahrzeug hat einen Fehlercode gespeichert.
Fault-not-an-adapter = Was an diesem Anschluss antwortet, ist kein solcher Adapter.
Fault-adapter-fault = Der Adapter meldet einen eigenen Fehler.
Fault-bus-fault = Der Bus des Fahrzeugs stört den Austausch.
Fault-no-answer = Ein Steuergerät antwortet auf eine Anfrage nicht.
Fault-declined = Ein Steuergerät lehnt eine Anfrage ab.
Fault-undecodable = Eine Antwort war nicht zu entschlüsseln, sie wurde kein Messwert.
Fault-units-disagree = Steuergeräte nennen verschiedene Werte für dieselbe Größe.
Fault-avoided = Die Verbindung brach jedes Mal ab, wenn das gesendet wurde; es wird nun zuletzt und selten gesendet.
Fault-wrong-sender = Ein Steuergerät antwortete, das nicht gefragt war.
Fault-journal-slow = Die Festplatte ist langsam.
Fault-journal-failed = Das Journal lässt sich nicht schreiben.
Fault-journal-repaired = Das Journal war beschädigt; was lesbar ist, geht weiter, die beschädigte Datei bleibt.
Fault-journal-damaged = Etwas im Journal ist nicht, was geschrieben wurde.

## Way

Way-drained = Von dem, was abgelassen wurde.
Way-filled = Von dem, was hinein sollte.
Way-ran-out = Von dem, was an der Kontrollschraube auslief.

## LampState

LampState-too-cold = Unter dem Bereich.
LampState-right = Im Bereich.
LampState-too-hot = Über dem Bereich.

## Step

Step-prepare = Vorbereiten: Böcke, waagerecht, Lüftung, Werkzeug, Behälter; die Einfüllschraube geht auf, bevor abgelassen wird.
Step-drain = Ablassen, und messen, was herauskam und wie warm es war.
Step-fill = Einfüllen, was herauskam, und die Zugabe aus den Fahrzeugdaten.
Step-circulate = Motor starten; Bremse getreten, Wählhebel durch seine Stellungen.
Step-window = Auf die richtige Temperatur warten.
Step-run-out = Kontrollschraube öffnen und den Überschuss auslaufen lassen.
Step-trickle = Der Strahl ist ein dünner Faden geworden.
Step-close = Kontrollschraube schließen.
Step-torque = Schrauben mit den Drehmomenten der Fahrzeugdaten festziehen.
Step-test-drive = Ein kurzes Stück fahren, nach Lecks sehen.
Step-recheck = Tage später den Getriebeölstand nachprüfen, aus dem Kalten.

## Hint

Hint-four-stands = Vier Unterstellböcke oder eine passende Hebebühne.
Hint-inclinometer = Neigungsmesser, Telefon oder Maßstab.
Hint-exhaust-hose = Abgasschlauch.
Hint-measuring-jug = Messbecher.
Hint-thermometer = Thermometer.
Hint-tray = Auffangwanne.
Hint-gloves-and-glasses = Handschuhe, Schutzbrille.
Hint-new-fluid = Neues Öl.
Hint-pump = Pumpe, oder Trichter mit Schlauch.
Hint-empty-jug = Leerer Messbecher.
Hint-lamp = Lampe.
Hint-torque-wrench = Drehmomentschlüssel.
Hint-new-seals = Neue Dichtungen, wie der Hersteller angibt.
Hint-its-own-gauge = Der Messstab, der zum Fahrzeug gehört.
Hint-cloth = Fusselfreies Tuch.
Hint-fill-stated = Die angegebene Menge einfüllen, gemessen.
Hint-fill-there = Durch die Öffnung einfüllen, an der geprüft wird: was herauskam.
Hint-only-drips = Es tropft nur.
Hint-close-by-hand = Von Hand schließen.
Hint-no-port-here = Hier wird nichts geöffnet: ein Messstab wird im Rohr gelesen, in mm.
Hint-read-twice = Abwischen, bis Anschlag schieben, ziehen, ablesen; dann noch einmal dasselbe.
Hint-two-must-agree = Zwei, die auf 2 mm gleich sind, zählen. Nicht abgewischt oder nicht am Anschlag sagt nichts.
Hint-clean-the-cap = Erst um den Deckel säubern; zwischen zwei Prüfungen Deckel wieder drauf.
Hint-air-springs = Hebemodus an, die Karosserie von Böcken oder Bühne gehalten, bevor jemand darunter geht.
Hint-orange = Orange ist Hochvolt: nur für dafür Ausgebildete, nie schneiden oder bewegen.
Hint-on-a-lift = Auf der Bühne: P, Feststellbremse, aussteigen. Heben, in die Sperren ablassen; niemand darunter, solange sie fährt.
Hint-sit-down-first = Hinsetzen, bevor der andere darunter geht; aussteigen erst, wenn unten frei ist.
Hint-wash-hands = Handschuhe an, mit Seife waschen, durchtränkte Kleidung wechseln.
Hint-photo-if-black = Schwarz, verbrannt, Metall darin: ein Foto, und der Kunde entscheidet, bevor es weitergeht.
Hint-never-what-ran-out = Nur neues Öl, nie das ausgelaufene.
Hint-out-of-a-pit = Raus aus der Grube, bis es so weit ist; der Abgasschlauch ist dran.
Hint-wipe-around = Erst um die Schraube abwischen, Schlauch und Pumpe säubern.
Hint-new-washer = Die neue Dichtung kommt auf die Schraube, während es ausläuft.
Hint-fan-may-start = Der Lüfter kann bei ausgeschaltetem Motor anlaufen: Hände weg.
Hint-wipe-while-hot = Heiß nur mit trockenem Tuch wischen; sprühen nur kalt, Motor aus.
Hint-all-but-the-stands = Alles außer den Böcken, bis der Motor startet.
Hint-brake-any-time = Die Bremse jederzeit; Stellungen nur bei laufendem Motor.
Hint-jug-may-wait = Den Messbecher darf man danach ablesen.

## The report: what the customer reads

date = { $day }. { $month ->
    [1] Januar
    [2] Februar
    [3] März
    [4] April
    [5] Mai
    [6] Juni
    [7] Juli
    [8] August
    [9] September
    [10] Oktober
    [11] November
   *[12] Dezember
} { $year }
report-title = Bericht zum Getriebeöl
report-of-job = Auftrag { $job }, { $day }
times-from-to = { $from } bis { $to }
times-since = seit { $from }
label-and-value = { $label }: { $value }
job-not-ended = Der Auftrag ist nicht abgeschlossen.
what-was-done = Was wurde gemacht?
is-it-right = Stimmt der Getriebeölstand?
may-i-drive = Darf ich fahren?
when-to-come-again = Wann komme ich wieder?
what-it-costs = Was kostet es?
what-you-should-know = Was Sie noch wissen sollten
answer-yes = Ja.
answer-probably = Wahrscheinlich.
answer-no = Nein.
done-changed = Das Getriebeöl wurde gewechselt: { $drained } kamen heraus, { $filled } neues Öl kamen hinein.
done-only-drained = { $drained } Öl kamen heraus. Neues Öl wurde nicht eingetragen.
done-only-filled = { $filled } neues Öl kamen hinein.
done-nothing-entered = Es wurde keine Ölmenge eingetragen.
done-checked = Der Getriebeölstand wurde geprüft.
done-checked-again = Der Getriebeölstand wurde nach Auftrag { $job } noch einmal geprüft.
done-fresh-share = { $percent } % des Öls darin sind jetzt neu.
drive-not-before-the-end = Erst, wenn der Auftrag abgeschlossen ist.
drive-not-said = Das steht nicht in diesem Bericht. Fragen Sie die Werkstatt, bevor Sie fahren.
again-not-right = Es ist noch nicht fertig. Die Werkstatt muss den Getriebeölstand einstellen.
days-and = { $days } und { $last }
again-no-day = Es wurde kein Tag genannt.
again-on = { $days }. Über Nacht stehen lassen: der Getriebeölstand wird kalt nachgeprüft.
customer-other-cause = Der Getriebeölstand war richtig, der Fehler hat also eine andere Ursache. Neues Öl allein behebt ihn nicht.
customer-driven-low = Es wurde mit zu wenig Getriebeöl gefahren. Das kann Verschleiß gebracht haben.
customer-ask-history = Es war zu wenig darin, ein Leck ist aber nicht zu sehen. Wer hat zuletzt daran gearbeitet?
customer-filled-wrong = Vor diesem Auftrag war zu viel Getriebeöl darin.
customer-worn = Das alte Öl war schwarz, verbrannt oder enthielt Metall: innen verschlissen. Fragen Sie die Werkstatt, was sie rät.
customer-water-in = Das alte Öl war milchig: Wasser oder Kühlmittel kam hinein. Die Ursache muss gefunden werden.
customer-codes = Das Fahrzeug hat Fehlercodes gespeichert: { $codes }. Fragen Sie die Werkstatt, was sie bedeuten.
customer-guessed = Einige Fahrzeugdaten sind geschätzt. Darum ist der Getriebeölstand weniger genau bekannt.
label-not-confirmed = Nicht bestätigt
label-vehicle = Fahrzeug
label-vin = Fahrgestellnummer (FIN)
label-odometer = Kilometerstand
label-date = Wann
label-workshop = Werkstatt
label-technician = Mechaniker
label-fluid = Getriebeöl
label-batch = Charge auf dem Gebinde
label-cost = Kosten
sign-technician = Mechaniker, Datum
sign-customer = Kunde, Datum

## The report: what the next technician reads

for-the-next-technician = Für den nächsten Mechaniker
label-guessed = In den Fahrzeugdaten geschätzt
guesses-cost = Bekannt auf ±{ $with } mit den Schätzungen, auf ±{ $without } ohne.
guess-that-helps-most = Am meisten hülfe: { $what }. Dann ±{ $within }.
label-recheck = Nachgeprüft
recheck-compared = Hinterlassen { $left }, gefunden { $found }: Änderung { $change }, ±{ $within }.
recheck-agrees = Das liegt in dem, worauf beide bekannt sind.
recheck-differs = Das ist mehr, als beide ungenau sind.
recheck-not-comparable = Die beiden lassen sich nicht vergleichen.
label-told-before = Beschwerde vorher
label-told-after = Mit richtigem Getriebeölstand
label-level-error = Abweichung
level-error-is = { $amount }, ±{ $within } (k = 2); { $height } am Überlaufrohr. Plus ist zu viel.
label-band = Richtige Temperatur
band-by = { $low } bis { $high }, gelesen an: { $signal }
label-torques = Drehmomente
as-the-maker-says = wie der Fahrzeughersteller angibt
label-data = Fahrzeugdaten
label-link = Gelesen über
entry-all-by-people = Kein Adapter: alles wurde von Menschen eingetragen.
label-readings = Messwerte
readings-read = { $count }, höchstens { $age } ms alt.
readings-told = { $count }, von Menschen eingetragen.
readings-apart = Höchstens { $seconds } s auseinander.
readings-pauses = Pausen von mehr als 5 s: { $count }, die längste { $seconds } s.
readings-losses = Kontakt verloren: { $count } ×.
readings-restarts = Programm neu gestartet: { $count } ×.
readings-known-at-closing = Standardunsicherheit beim Schließen: { $u }.
section-wrong = Was nicht stimmte, und was zu tun ist
section-temperature = Temperatur im Verlauf
section-budget = Abweichung, und woraus sie besteht
section-balance = Mengen, wie gemessen
section-codes-and-fluid = Fehlercodes und altes Öl
section-old-fluid = Altes Öl
section-steps = Schritte
section-told = Was eingetragen wurde, und wann
section-on-the-way = Was unterwegs geschah
section-stops = Gezeigte Warnungen
section-photos = Fotos
section-cautions = Gezeigte Sicherheitshinweise
budget-cause = Ursache
budget-amount = Menge
budget-u = Standardunsicherheit
budget-together = Zusammen, ± mit k = 2
balance-drained = abgelassen
balance-filled = eingefüllt
balance-ran-out = ausgelaufen
balance-with-parts = mit Teilen
balance-spilled = verschüttet, geschätzt
balance-kept = behalten
balance-expected = Soll auslaufen
balance-closure = Ausgelaufen weniger Soll
amount-and-uncertainty = { $amount }, Standardunsicherheit { $u }
balance-fresh = Neues Öl
balance-waste = Altöl
codes-before = Fehlercodes zu Beginn
codes-after = Neu während des Auftrags
codes-none-told = das Fahrzeug nannte keine
codes-nobody-read = nicht gelesen: es gab keinen Adapter
old-fluid-not-entered = Niemand hat eingetragen, wie es aussah.
state-open = nicht begonnen
state-started = begonnen
state-done = erledigt
state-failed = misslungen
state-undone = zurückgenommen
who-under = unten
who-inside = drinnen
who-vehicle = Fahrzeug
who-person = ein Mensch
entry-at = { $what } bei { $celsius }
entry-spilled = Verschüttet { $amount }, geschätzt.
as-the-data-says = wie in den Fahrzeugdaten
entry-kept = Behalten { $amount }
entry-level = Gemessen: vorn { $pitch }, links { $roll }
entry-corners = Höhen: vorn { $front }, hinten { $rear }
entry-air = Luft im Freien
engine-idling = Der Motor läuft im Leerlauf
engine-stopped = Der Motor ist aus
entry-below-edge = { $depth } unter der Unterkante
entry-gauge = Der Messstab zeigt { $depth }
entry-confirmed = Bestätigt
entry-selector = Wählhebel
entry-photo = Foto
entry-recheck-of-job = Nachprüfung von Auftrag
entry-identifier = Bestätigt als Kennung des Getriebeöls
entry-leak = Leck
entry-alarm = Alarm
entry-ended-by-hand = Von Hand beendet
entry-remark = Bemerkung
entry-taken-back = Zurückgenommen
entries-before = davor noch { $count }, im Journal
entries-of-thermometers = Thermometerwerte: { $count }, im Bild
more-in-the-journal = noch { $count } im Journal
column-time = Zeit
column-step = Schritt
column-state = Stand
column-by = Von
column-what = Was
journal-range = Ereignisse { $first } bis { $last } des Journals. Zeiten in { $zone }.
label-seal = Siegel
seal-is-checked-by = { $command } zeigt, ob der Bericht verändert wurde.
doubt-unread = Das Ereignis { $event } ist nicht lesbar: { $why }.
doubt-changed = Die Ereignisse { $first } bis { $last } sind nicht, wie sie geschrieben wurden: sie fehlen oder sind verändert.
plot-no-temperature = Es wurde keine Temperatur aufgezeichnet.
plot-from-to = Von { $from } bis { $to }.
plot-was-right = Die Temperatur war richtig (schraffiert) von Minute { $from } bis Minute { $to }.
plot-never-right = Die Temperatur war nie richtig.
plot-port-was-open = Die Kontrollschraube war offen von Minute { $from } bis { $to }, geschlossen bei { $celsius }.
plot-axis = Minuten ab Beginn; { $unit }
plot-port-open = offen
pipe-drawn = Das Überlaufrohr: richtige Temperatur { $low } bis { $high }.
pipe-drawn-closed = Das Überlaufrohr: richtige Temperatur { $low } bis { $high }. Geschlossen bei { $celsius }.
offer-odometer = Kilometerstand, mit Einheit
offer-technician = Wer es gemacht hat
offer-workshop = Welche Werkstatt
offer-fluid = Das Öl, wie es am Gebinde steht
offer-batch = Die Charge auf dem Gebinde
offer-cost = Was es kostet, mit Währung

## The board of many bays

bay-is-quiet = Hier läuft kein Auftrag.
bay-is-not-heard = Nichts zu hören. Hingehen und nachsehen.
board-empty = Bei { $broker } ist noch kein Arbeitsplatz zu hören.
board-broker-lost = { $broker } ist nicht zu hören. Was hier steht, ist alt.
board-keys = Tippen sucht. Strg-C beendet.
board-sought = Suche: { $text }

## The plan

plan-title = Plan: { $sheet }
plan-buy = Kaufen
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = Einfüllen
plan-fill-says = etwa { $amount }: { $parts }
plan-one-drain = ein Ablassen von { $amount }
plan-drains = { $count } × Ablassen von { $amount }
plan-for-parts = { $amount } für Filter, Kühler und Wanne
plan-the-extra = die Zugabe
plan-hand-in = etwa { $amount }, abgeben
plan-fresh = Neues Öl danach
plan-at-best = bestenfalls { $percent } %
plan-runs-out = Läuft aus
plan-runs-out-says = etwa { $amount } bei { $celsius }, wenn der Getriebeölstand vorher stimmte
plan-trickle = Bis zum dünnen Faden
plan-trickle-says = etwa { $seconds } s nach dem Öffnen: ein Anhalt, nie eine Entscheidung
plan-unknown = lässt sich nicht sagen
plan-hot = An heißen Orten
plan-hot-says = { $low } bis { $high }, ab { $air } im Freien: das Fahrzeug zeigt es, oder am Anfang eintragen
plan-opens = Richtige Temperatur kommt
plan-opens-says = { $minutes } nach einem Kaltstart bei { $air }: ein übliches Auto, bis zum Doppelten oder zur Hälfte falsch
plan-lasts = Sie bleibt richtig
plan-lasts-says = { $minutes }, mit demselben Zweifel
plan-minutes = { $low } bis { $high } min
plan-hot-day = Heißer Tag
plan-day-second-band = Heute zählt der Bereich für heiße Orte. Zeigt das Fahrzeug die Luft im Freien nicht, am Anfang eintragen.
plan-day-below-second = Das Öl beginnt nahe am Bereich: die richtige Temperatur kommt bald und bleibt kurz. Am kühlen Morgen beginnen. Der Bereich für heiße Orte zählt noch nicht.
plan-day-no-second = Das Öl beginnt nahe am Bereich: die richtige Temperatur kommt bald und bleibt kurz. Am kühlen Morgen beginnen. Die Fahrzeugdaten haben keinen Bereich für heiße Orte; der Hersteller vielleicht.
plan-degree = Ein Grad
plan-degree-falls = { $amount } je { $degree } zu warm beim Schließen: zu kalt geschlossen ist es zu voll, zu warm zu wenig
plan-degree-rises = { $amount } je { $degree } zu warm beim Schließen: zu kalt geschlossen ist es zu wenig, zu warm zu voll
plan-left-out = Nicht dabei
plan-leaves-out-slope = wie sich die Steigung der Fahrzeugdaten außerhalb des Bereichs ändert und wo Öl zurückgehalten oder freigegeben wird; die Ausdehnung steckt in dieser Steigung
plan-leaves-out-thermostat = Öl, das ein Thermostat beim Warmwerden zurückhält oder freigibt: gerechnet ist nur die Ausdehnung
plan-tilt = Eine Neigung
plan-tilt-says = { $pitch } je 1° vorn hoch, { $roll } je 1° links hoch: innerhalb von { $allowed } bleiben
plan-not-confirmed = Niemand hat bestätigt
plan-before-any-job = { $what }: vor der Bestätigung beginnt kein Auftrag
plan-guessed = Geschätzt
plan-guess-costs = { $what }: kostet { $amount } vom ±
plan-guess-is-free = { $what }: kein Teil vom ±
plan-off = Was es kostet, daneben zu liegen
plan-off-by = Daneben um
plan-off-pipe = Am Überlaufrohr
plan-off-temperature = Temperatur { $by }
plan-off-nose = vorn hoch { $by }
plan-off-left = links hoch { $by }
plan-still-right = noch richtig
plan-too-much = zu viel
plan-checklist = Checkliste
plan-at-hand = Bereit
plan-beware = Achtung
plan-out-of-order = Darf außer der Reihe eingetragen werden
plan-stop-rules = Wann aufhören, bei jedem Schritt
who-either = einer von beiden
line-exchanges = { $count } Mal ablassen und einfüllen. Dazwischen den Motor laufen lassen, durch alle Stellungen.
line-selector = { $positions }: je { $dwell } s, { $rounds } Runden
line-look = Prüfen: { $look }
line-looks = { $count } Mal prüfen, eins nach dem anderen.
line-look-number = Prüfung { $number }: { $look }
line-wave = Eine kleine Welle alle { $seconds } s ist nicht der Überschuss: dazwischen prüfen.
line-stand = Nicht waagerecht: { $how }. Messen, Augenmaß zählt nicht.
stand-nose-up = vorn { $degrees } hoch
stand-nose-down = vorn { $degrees } tief
stand-left-up = links { $degrees } hoch
stand-right-up = rechts { $degrees } hoch
look-idling = im Leerlauf
look-engine-off = Motor aus
look-ready-off = READY aus
look-in-position = in { $position }
look-after = nach { $seconds } s
look-between = { $from } bis { $to } s nach dem Abstellen
look-in-band = bei richtiger Temperatur
sign-thread = der Überschuss läuft aus bis zum dünnen Faden
sign-first-drips = erst trocken; es tropft vor dem oberen Ende des Bereichs
sign-drips = es läuft aus, bis es nur tropft
sign-below-edge = das Öl steht { $low } bis { $high } unter der Unterkante
sign-at-edge = das Öl steht an der Unterkante
sign-chart = der Messstab zeigt, was die Tabelle erlaubt
sign-amounts = die Mengen stimmen
look-then-add = geschlossen, dann noch { $amount }
