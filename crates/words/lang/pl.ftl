### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = Wybierz pojazd. Potem rozpocznij zlecenie.
Advice-prepare-vehicle = Ustaw na czterech kobyłkach albo podnośniku. Równo, wąż spalin na dwór.
Advice-shim-stands = Wyjdź spod pojazdu. Potem ustaw równo na kobyłkach i zmierz ponownie.
Advice-park = P, hamulec postojowy włączony. Kliny pod koła, które stoją na ziemi.
Advice-read-container = Przeczytaj opakowanie na głos, porównaj z danymi pojazdu. Te same słowa?
Advice-open-fill-port = Otwórz najpierw korek wlewu. Dopiero potem spuść olej.
Advice-cool-before-drain = Zaczekaj, aż ostygnie, potem spuść olej. Powyżej 60 °C olej parzy.
Advice-switch-ready-off = Wyłącz READY, kluczyk daj osobie na dole. Inaczej silnik sam się uruchomi.
Advice-drain = Spuść olej, wyjmij też rurkę przelewową. Zmierz ilość i temperaturę.
Advice-drain-again = Silnik zgaszony, oba korki zostaw zamknięte. Potem spuść olej i nalej ponownie.
Advice-put-pipe-in = Wkręć rurkę przelewową ręką, do oporu. Zbyt mocno wkręcona pęknie.
Advice-was-pipe-out = Wypłynęło mało: czy rurka przelewowa była wyjęta? Wtedy załóż ją znowu.
Advice-is-pipe-in = Czy rurka przelewowa jest założona? Bez niej miska skrzyni się opróżni.
Advice-fill = Nalej tyle, ile wypłynęło, i naddatek.
Advice-close-up = Wkręć oba korki ręką. Zabierz wąż i kuwetę.
Advice-put-pin-in = Włóż bolec zaworu chłodnicy. Dopiero potem uruchomienie silnika.
Advice-lead-exhaust = Załóż wąż spalin na wydech, koniec na dwór. Otwarta brama nie wystarczy.
Advice-check-exhaust = Silnik długo pracuje: czy wąż spalin jest założony? Ból głowy: najpierw wyjdź.
Advice-come-out = Wyjdź spod pojazdu. Powiedz „stoję obok”.
Advice-stay-out = Zostań z dala. Silnik startuje, dźwignia biegów się przesuwa.
Advice-wait-for-clear = Czekaj. Następny krok dopiero, gdy osoba z dołu powie „stoję obok”.
Advice-start-engine = Uruchom silnik. Noga na hamulcu, zostań w P.
Advice-hold-brake = Postaw nogę na hamulcu i tak trzymaj. Dźwignia biegów w P.
Advice-cycle-selector = Trzymaj nogę na hamulcu. Przesuń dźwignię biegów przez wszystkie pozycje.
Advice-switch-mode-on = Włącz tryb serwisowy, wyłącz Start-Stop. Powiedz, gdy zrobione.
Advice-confirm-open = Jest jeszcze coś do zrobienia. Zrób to, potem potwierdź.
Advice-stay-clear = Zostań z dala. Właściwa temperatura dopiero nadejdzie.
Advice-keep-idling = Zostaw silnik na wolnych obrotach, w P. Noga z gazu, ręce z dala.
Advice-may-stop = Po takim czasie silnik już raz sam zgasł. Ręce z dala.
Advice-keep-idling-until-closed = Zostaw silnik na wolnych obrotach, aż z dołu usłyszysz „zamknięte”.
Advice-be-ready = Zajmij miejsce na dole. Zostaw korek kontrolny zamknięty.
Advice-look-position = Trzymaj nogę na hamulcu. Dźwignia biegów w pozycję do kontroli.
Advice-settle = Zostań z dala, aż olej się ustoi. Zostaw wszystko tak, jak jest.
Advice-open-port = Otwórz teraz korek kontrolny, z boku. Załóż okulary.
Advice-watch-stream = Patrz z boku. Powiedz, gdy jest cienka strużka.
Advice-watch-drips = Patrz z boku. Powiedz, gdy spadną pierwsze krople.
Advice-open-port-off = Silnik ma pozostać zgaszony. Otwórz teraz korek, z boku.
Advice-watch-off = Silnik ma pozostać zgaszony. Patrz: powiedz, gdy jest cienka strużka.
Advice-look-at-edge = Zobacz, gdzie stoi olej. Powiedz, czy przy krawędzi, czy ile poniżej.
Advice-read-gauge = Wytrzyj bagnet, wsuń go do oporu. Powiedz, ile milimetrów.
Advice-read-again = Wytrzyj, odczytaj jeszcze raz. Dwa odczyty mają się zgadzać do 2 mm.
Advice-draw-out = Za dużo oleju. Odessij trochę z rury wlewu i zmierz.
Advice-let-some = Za dużo oleju. Wypuść trochę, aż będzie stał właściwie.
Advice-still-flowing = Płynie jeszcze po 15 s? Powiedz to; jeśli nie, zamknij.
Advice-close-port = Zamknij natychmiast, ręką.
Advice-close-port-wait = Zamknij korek kontrolny. Zła temperatura.
Advice-close-port-cool = Zamknij korek kontrolny. Za gorąco.
Advice-close-too-much = Zamknij natychmiast. Wypłynęło za dużo: zły korek?
Advice-stop-and-cool = Zgaś silnik. Zaczekaj, aż ostygnie, potem znowu wolne obroty.
Advice-stop-now = Zgaś silnik natychmiast. P.
Advice-stop-engine = Zgaś silnik. Wyjmij kluczyk i trzymaj go w ręce.
Advice-keep-off = Silnik ma pozostać zgaszony.
Advice-keep-closed = Zostaw korek zamknięty. Najpierw silnik zostanie zgaszony.
Advice-stay-away = Zostań z dala. Musi najpierw ostygnąć.
Advice-answer = Odpowiedz, czy wszystko dobrze.
Advice-call-below = Zawołaj na dół. Brak odpowiedzi: zgaś silnik, idź i sprawdź.
Advice-charge-battery = Słaby akumulator. Zgaś silnik, wyjdź, dopiero potem ładuj.
Advice-fill-first = Silnik ma pozostać zgaszony. Najpierw nalej to, czego brakuje.
Advice-fill-more = Zamknij korek kontrolny ręką. Za mało oleju: dolej.
Advice-fill-to-edge = Silnik zgaszony, korek otwarty: nalewaj, aż tamtędy wypłynie. Zmierz.
Advice-add-amount = Zamknij korek ręką. Potem nalej ilość z danych pojazdu.
Advice-fill-here = Za mało oleju. Dolej przez ten otwór.
Advice-hose-out = Wyjmij wąż. Powiedz, co leci: strumień, krople czy nic.
Advice-look-why-low = Skończ nalewać. Szukaj wycieku albo złego korka.
Advice-drain-wrong = Zły olej: silnik ma pozostać zgaszony. Spuść olej, nalej właściwy.
Advice-read-jug = Odczytaj najpierw dzbanek: powiedz, ile wypłynęło.
Advice-let-out = Za dużo oleju: silnik ma pozostać zgaszony. Wypuść nadmiar i zmierz.
Advice-soak-up = Zbierz rozlany olej. Wytrzyj wydech, gdy będzie zimny.
Advice-check-adapter = Zamknij korek kontrolny ręką. Potem sprawdź wtyczkę adaptera.
Advice-ask-engine = Silnik na wolnych obrotach, bez czerwonej lampki? Wtedy powiedz.
Advice-say-engine = Czy silnik jest zgaszony? Powiedz, co robi.
Advice-close-port-engine = Zamknij korek kontrolny. Nikt nie potwierdza wolnych obrotów silnika.
Advice-feel-pan = Stał 8 h, miska skrzyni zimna jak powietrze? Wtedy potwierdź.
Advice-read-inside = Co pojazd pokazuje o oleju w skrzyni? Powiedz.
Advice-push-adapter = Zostaw silnik tak, jak jest. Dociśnij adapter jeszcze raz.
Advice-check-sensor = Zostaw korek zamknięty. Zmierz miskę skrzyni na matowej taśmie.
Advice-tighten = Zostaw oba korki na miejscu. Najpierw silnik zgaszony, potem dokręć kluczem.
Advice-take-pin-out = Wyjmij bolec zaworu chłodnicy, przy zgaszonym silniku. Inaczej się przegrzeje.
Advice-wipe-dry = Wytrzyj szmatką do sucha. Wyjdź spod pojazdu, powiedz „stoję obok”.
Advice-look-for-leaks = Po 5 min na wolnych obrotach szukaj kropel.
Advice-look-for-drops = Szukaj kropel wokół korków.
Advice-mend-leak = Silnik zgaszony. Najpierw usuń wyciek.
Advice-refit = Załóż osłony i koło. Dokręć koło kluczem, gdy stoi na ziemi.
Advice-test-drive = Postaw pojazd na koła. Przejedź spokojnie kawałek, potem szukaj wycieków.
Advice-not-driven = Pojazd ma stać, jazda zabroniona. Brakuje oleju w skrzyni.
Advice-finish = Zakończ raport.
Advice-recheck = Skontroluj poziom oleju w skrzyni, na zimno, w dniu z raportu.
Advice-set-again = Jeszcze nie ustawiony. Zobacz raport, potem skontroluj ponownie.
Advice-wait = W środku nie ma jeszcze nic do zrobienia. Ręce z dala.
Advice-fresh-air = Wszyscy na świeże powietrze. Wezwij pomoc.
Advice-get-out = Wszyscy na zewnątrz, natychmiast. Wezwij straż pożarną.
Advice-engine-off-caught = Zgaś silnik natychmiast, P, noga na hamulcu. Wezwij pomoc.
Advice-hold-still = Bez ruchu: nikt nie ciągnie, nikt nie rusza pojazdu. Pomoc nadchodzi.
Advice-cool-burn = Chłodź oparzenie chłodną bieżącą wodą, 20 min. Bez lodu.
Advice-help-burn = Pomóż wyjść. Zamknij korek kontrolny z boku, potem zgaś silnik.

## Caution

Caution-maker-first = Pierwszeństwo mają tekst producenta, przepisy i zasady zawodu, gdy się różnią.
Caution-four-stands = Cztery kobyłki albo podnośnik na ryglach. Sam lewarek zabija.
Caution-hot-fluid = Załóż rękawice, okulary, długie rękawy. Olej, miska skrzyni i wydech są gorące.
Caution-running-engine = Silnik pracuje. Włosy i rękawy z dala od pasków, wentylatora i wałów.
Caution-brake-held = Nikogo pod pojazdem. Noga na hamulcu, koła wolne albo zaklinowane.
Caution-ventilation = Spaliny zabijają. Wąż spalin założony, koniec na dworze: otwarta brama nie wystarczy.
Caution-waste-oil = Zbierz do osobnego pojemnika. Oddaj jako olej przepracowany.
Caution-overheating = Za gorąco. Zgaś silnik natychmiast, dźwignia biegów w P, z dala, aż ostygnie.
Caution-low-voltage = Słaby akumulator: wyłącz światła i nawiew. Ładuj tylko przy zgaszonym silniku, nikogo na dole.
Caution-long-idling = Silnik długo pracuje. Wąż spalin założony, koniec na dworze? Kogoś boli głowa: najpierw wyjdź.
Caution-lost-while-open = Brak odczytu, korek kontrolny otwarty. Zamknij ręką; zostaw silnik na wolnych obrotach, potem sprawdź wtyczkę adaptera.
Caution-fill-port-first = Najpierw korek wlewu. Pusty i bez możliwości napełnienia pojazd nie pojedzie.

## Precondition

Precondition-on-stands = Na czterech kobyłkach albo podnośniku, podłoże twarde i równe, potrząśnięty, stabilny.
    .short = kobyłki
Precondition-vehicle-level = Pojazd stoi równo.
    .short = ustawienie równo
Precondition-exhaust-outside = Wąż spalin założony, koniec na dworze; albo pojazd na dworze.
    .short = wąż spalin
Precondition-brake-held = Hamulec jest wciśnięty, gdy dźwignia biegów się przesuwa.
    .short = hamulec wciśnięty
Precondition-cooler-bypass = Obejście chłodnicy jest otwarte bolcem.
    .short = bolec zaworu chłodnicy
Precondition-selector-cycled = Dźwignia biegów przeszła przez pozycje, jak mówią dane pojazdu.
    .short = dźwignia biegów
Precondition-filled = Nowy olej jest nalany do skrzyni, z naddatkiem.
    .short = nalanie oleju
Precondition-started-cold = Uruchomiony na zimno: płyn chłodzący i powietrze zgodne, albo stał 8 godzin.
    .short = zimny rozruch
Precondition-engine-running = Silnik pracuje.
    .short = silnik
Precondition-engine-idling = Silnik ma wolne obroty w zakresie z danych pojazdu.
    .short = wolne obroty
Precondition-engine-off = Silnik jest zgaszony, jak wymaga ta kontrola.
    .short = silnik zgaszony
Precondition-settled = Olej stał tak długo, jak mówią dane pojazdu.
    .short = ustanie się oleju
Precondition-in-position = Dźwignia biegów jest w pozycji do kontroli z danych pojazdu.
    .short = pozycja do kontroli
Precondition-standing-still = Pojazd stoi w miejscu.
    .short = postój
Precondition-parked = Dźwignia biegów w P, hamulec postojowy trzyma. Kliny, gdzie koła stoją na ziemi.
    .short = hamulec postojowy
Precondition-fill-port-open = Korek wlewu był już otwarty: daje się ruszyć.
    .short = korek wlewu
Precondition-fluid-right = Opakowanie przeczytano na głos i porównano z danymi pojazdu: to samo.
    .short = opakowanie przeczytane
Precondition-pipe-in = Rurka przelewowa jest założona, ręką do oporu. Potem jej mały moment.
    .short = rurka przelewowa założona
Precondition-closed-up = Korek kontrolny i korek wlewu wkręcone ręką, kuweta i wąż zabrane.
    .short = korki na miejscu, kuweta zabrana
Precondition-clear = Osoba z dołu wyszła spod pojazdu, z narzędziami, i to powiedziała.
    .short = hasło „stoję obok”
Precondition-bypass-out = Bolec zaworu chłodnicy jest wyjęty.
    .short = bolec zaworu chłodnicy wyjęty
Precondition-no-leak = Silnik na wolnych obrotach, spód suchy: wycieku nie widać.
    .short = szukanie wycieku
Precondition-refitted = Osłony i koło założone, koło dokręcone na ziemi.
    .short = osłony, koło
Precondition-mode-on = Tryb serwisowy włączony, Start-Stop wyłączony.
    .short = tryb serwisowy
Precondition-ready-off = READY wyłączone, kluczyk u osoby na dole.
    .short = READY wyłączone
Precondition-dry = Rozlany olej jest zebrany, wydech wytarty.
    .short = zebranie rozlanego oleju
Precondition-all-safe = Nikt nie jest już w niebezpieczeństwie.
    .short = wszyscy bezpieczni

## Reason

Reason-in-band = Olej w skrzyni jest w zakresie, także z niepewnością.
Reason-no-band = Ta kontrola nie wymaga temperatury.
Reason-below-band = Olej w skrzyni jest jeszcze poniżej zakresu.
    .remedy = Zostaw silnik na wolnych obrotach; prognoza mówi, jak długo.
Reason-above-band = Olej w skrzyni jest powyżej zakresu.
    .remedy = Zostaw korek kontrolny zamknięty, zgaś silnik, zaczekaj, aż ostygnie.
Reason-guard-band = Tak blisko krawędzi zakresu, że może leżeć poza nim.
    .remedy = Czekaj; wkrótce będzie jasne.
Reason-hysteresis = Dopiero co w zakresie, albo po rozruchu jeszcze się miesza.
    .remedy = Czekaj; wkrótce będzie jasne.
Reason-too-uncertain = Temperatura nie jest znana dość dokładnie dla tego zakresu.
    .remedy = Podaj lepszy odczyt: identyfikator oleju, albo termometr na taśmie lub matowym lakierze.
Reason-no-reading = Nie ma jeszcze odczytu temperatury.
    .remedy = Przy włączonym zapłonie pierwszy przyjdzie po kilku sekundach.
Reason-stale = Ostatni odczyt temperatury jest za stary.
    .remedy = Wróci sam; jeśli nie, sprawdź wtyczkę adaptera.
Reason-link-lost = Nie ma kontaktu z pojazdem.
    .remedy = Sprawdź wtyczkę adaptera i zapłon; kontakt wróci sam.
Reason-frozen = Temperatura stoi, choć powinna się zmieniać: może czujnik się zawiesił.
    .remedy = Porównaj z termometrem na misce skrzyni; jeśli się różnią, winny czujnik lub przewody.
Reason-stepped-away = Temperatura skoczyła bardziej, niż olej może się ogrzać lub ostudzić.
    .remedy = Sprawdź złącze czujnika; czekaj, aż odczyty znowu się zgodzą.
Reason-not-alive = Temperatura jeszcze się nie zmieniła. Więc czujnik nie jest sprawdzony.
    .remedy = Porównaj z termometrem na misce skrzyni; jeśli się różnią, winny czujnik lub przewody.
Reason-copies-coolant = Odczyt oleju jest ciągle równy płynowi chłodzącemu: może sterownik go podstawia.
    .remedy = Porównaj z termometrem na misce skrzyni, zanim zaufasz.
Reason-disagrees = Temperatura nie pasuje do płynu chłodzącego, powietrza, rozruchu lub termometru.
    .remedy = Zmierz termometrem miskę skrzyni na taśmie lub matowym lakierze. Sprawdź identyfikator w danych pojazdu i podaną powierzchnię.
Reason-units-disagree = Sterowniki podają różne temperatury. Nikt nie powiedział, która jest prawdziwa.
    .remedy = Ustal termometrem, która jest prawdziwa. Podaj ją w danych pojazdu: `check.from`.
Reason-other-vehicle = Adapter jest wpięty w inny pojazd niż w tym zleceniu.
    .remedy = Wepnij adapter z powrotem w pojazd z tego zlecenia.
Reason-sensor-code = Zapisany jest kod usterki czujnika temperatury oleju w skrzyni.
    .remedy = Najpierw napraw czujnik lub jego obwód; tej temperaturze nie można ufać.
Reason-overheat-code = Zapisany jest kod usterki przegrzanego oleju w skrzyni.
    .remedy = Ustal, czemu olej się przegrzał, zanim ustawisz poziom oleju.
Reason-implausible = Odczyt jest poza tym, co olej może mieć.
    .remedy = Sprawdź złącze czujnika; czekaj, aż odczyty znowu się zgodzą.
Reason-precondition-open = Nie potwierdzono czegoś, co musi być przed ustawieniem poziomu oleju.
    .remedy = Zobacz listę, co jest do zrobienia.
Reason-no-job = Nie rozpoczęto zlecenia.

## Trouble

Trouble-port-gone = Połączenie z adapterem jest przerwane.
    .remedy = Sprawdź wtyczkę i kabel adaptera; połączenie wróci samo.
Trouble-adapter-silent = Adapter nie odpowiada.
    .remedy = Sprawdź wtyczkę adaptera; wróci sam.
Trouble-adapter-mute = Adapter milczy, choć jego port otwarto od nowa.
    .remedy = Wyjmij adapter i włóż ponownie; jeśli to nie pomoże, użyj innego.
Trouble-out-of-step = Adapter odpowiada, ale nie na to, o co się pyta.
    .remedy = Wyjmij adapter i włóż ponownie; jeśli to nie pomoże, użyj innego.
Trouble-adapter-fault = Adapter zgłasza własną usterkę.
    .remedy = Wyjmij adapter i włóż ponownie; jeśli to nie pomoże, użyj innego.
Trouble-restarting = Adapter stracił ustawienia i jest ustawiany od nowa.
    .remedy = Wróci sam; jeśli to się powtarza, sprawdź jego wtyczkę.
Trouble-modem = Na tym porcie odpowiada modem.
    .remedy = Podaj inne urządzenie: ten port to nie adapter.
Trouble-loop = Wraca tylko to, co wysłano: goły kabel albo adapter bez zasilania.
    .remedy = Wepnij adapter w pojazd: tam dostanie zasilanie.
Trouble-noise = Z tego portu idą tylko szumy.
    .remedy = Podaj prędkość adaptera z jego urządzeniem, albo inne urządzenie.
Trouble-talk = To, co odpowiada, nie przyjmuje ustawień adaptera diagnostycznego.
    .remedy = Wyjmij adapter i włóż ponownie; jeśli to nie pomoże, użyj innego.
Trouble-not-understood = Adapter nie rozumie, o co ma zapytać pojazd.
    .remedy = Użyj innego adaptera.
Trouble-senders-unknown = Odpowiada kilka sterowników. Adapter nie mówi, który co wysłał.
    .remedy = Użyj innego adaptera, takiego, który podaje nadawców.
Trouble-sender-unknown = Adapter nie mówi, który sterownik odpowiada.
    .remedy = Użyj innego adaptera, takiego, który podaje nadawców.
Trouble-protocol-unknown = Pojazd odpowiada, ale adapter nie mówi, na której magistrali.
    .remedy = Użyj innego adaptera.
Trouble-unreadable = Pojazd odpowiada, ale tekstu adaptera nie da się odczytać.
    .remedy = Pytanie powtórzy się samo; jeśli tak zostanie, użyj innego adaptera.
Trouble-late-reply = Adapter nie kończy odpowiedzi na czas.
    .remedy = Pytanie powtórzy się samo; jeśli tak zostanie, użyj innego adaptera.
Trouble-interrupted = Adapter przerywa to, o co się pyta.
    .remedy = Pytanie powtórzy się samo; jeśli tak zostanie, użyj innego adaptera.
Trouble-spoilt = Odpowiedzi psują się po drodze.
    .remedy = Sprawdź wtyczkę i kabel; pytanie powtórzy się samo. Jeśli tak zostanie, użyj innego adaptera.
Trouble-other-request = Odpowiedzi należą do innych pytań.
    .remedy = Pytanie powtórzy się samo; jeśli tak zostanie, użyj innego adaptera.
Trouble-repeats = Adapter tylko powtarza stare odpowiedzi.
    .remedy = Wyjmij adapter i włóż ponownie; jeśli to nie pomoże, użyj innego.
Trouble-unsteady = Wartość zmienia się z odpowiedzi na odpowiedź.
    .remedy = Sprawdź wtyczkę i kabel; pytanie powtórzy się samo. Jeśli tak zostanie, użyj innego adaptera.
Trouble-vehicle-silent = Pojazd nie odpowiada.
    .remedy = Sprawdź zapłon i czy adapter siedzi mocno w gnieździe.
Trouble-search-endless = Szukanie pojazdu nie dobiega końca.
    .remedy = Próba powtórzy się sama; sprawdź, czy adapter siedzi mocno w gnieździe.
Trouble-bus-start = Magistrala pojazdu nie startuje.
    .remedy = Sprawdź zapłon i czy adapter siedzi mocno w gnieździe.
Trouble-bus-trouble = Magistrala pojazdu zakłóca to, co się wysyła.
    .remedy = Sprawdź, czy adapter siedzi mocno. Nic innego nie może wisieć na gnieździe.
Trouble-only-refusals = Pojazd odmawia już pierwszego pytania.
    .remedy = Niektóre pojazdy blokują gniazdo; wtedy zostaje tylko termometr.
Trouble-unit-silent = Żaden sterownik nie odpowiada na to pytanie.
    .remedy = Sam pojazd odpowiada: sprawdź nagłówek i identyfikator w danych pojazdu.
Trouble-unit-busy = Sterownik prosi o więcej czasu i nie odpowiada.
    .remedy = Jeśli tak zostanie, sprawdź identyfikator w danych pojazdu.
Trouble-refused-unknown = Sterownik odmawia: nie zna tego identyfikatora.
    .remedy = Sprawdź identyfikator i nagłówek w danych pojazdu.
Trouble-refused-locked = Sterownik odmawia: trzyma tę wartość zablokowaną.
    .remedy = Użyj danych pojazdu z płynem chłodzącym albo termometrem.
Trouble-refused-now = Sterownik na razie odmawia: warunki są nieodpowiednie.
    .remedy = Rób kolejny krok; może odpowie, gdy silnik pracuje.
Trouble-refused = Sterownik odmawia tego pytania.
    .remedy = Sprawdź identyfikator i nagłówek w danych pojazdu.
Trouble-wrong-sender = Odpowiada inny sterownik niż ten pytany.
    .remedy = Sprawdź nagłówek w danych pojazdu.
Trouble-not-addressable = Sterownika z danych pojazdu nie można zaadresować na tej magistrali.
    .remedy = Sprawdź nagłówek w danych pojazdu.
Trouble-undecodable = Odpowiedź jest zbudowana inaczej, niż mówią dane pojazdu.
    .remedy = Sprawdź bajt i długość identyfikatora w danych pojazdu.

## Outcome

Outcome-set = Poziom oleju w skrzyni jest właściwy.
Outcome-set-low = Poziom oleju w skrzyni ustawiony, ale brakuje więcej, niż pozwalają dane pojazdu.
Outcome-set-high = Poziom oleju w skrzyni ustawiony, ale nadmiar większy, niż pozwalają dane pojazdu.
Outcome-not-set = Jeszcze nie ustawiony: poziom oleju w skrzyni.
Outcome-set-unsure = Poziom oleju w skrzyni jest prawdopodobnie właściwy.
Outcome-checked = Poziom oleju w skrzyni był właściwy.

## Drivable

Drivable-yes = Można jechać.
Drivable-workshop-only = Przestawiać tylko w warsztacie.
Drivable-no = Pojazd ma stać, jazda zabroniona; przestawiać tylko z uniesionymi kołami napędowymi.

## Meaning

Meaning-other-cause = Poziom oleju w skrzyni był właściwy: objaw ma inną przyczynę. Wymiana oleju tego nie naprawi. Odczytaj kody usterek.
Meaning-driven-low = Jeżdżono z niedoborem oleju w skrzyni. Zapytaj o poślizg, odczytaj kody usterek, powiedz klientowi.
Meaning-ask-history = Było za mało, a wycieku nie widać. Zapytaj, kto przy tym pracował i kiedy.
Meaning-filled-wrong = Było za dużo. Nalano na zimno, albo jest inny olej? Zapytaj.
Meaning-worn = Czarny, spalony albo metal: zużycie w środku. Decyduje klient.
Meaning-water-in = Mleczny: jest w nim woda albo płyn chłodzący. Znajdź, którędy wchodzi.

## Question

Question-symptoms = Dlaczego pojazd tu jest?
Question-leaks = Spójrz na spód: czy cieknie?
Question-leak-place = Gdzie cieknie?
Question-fluid = Pierwsze krople: jak wygląda olej?

## FindNext

FindNext-key-on = Włącz zapłon. Silnik ma pozostać zgaszony i zimny.
FindNext-key-off = Wyłącz zapłon na dziesięć minut. Potem włącz zapłon, silnik zgaszony.
FindNext-wait = Zostaw zapłon włączony, silnik zgaszony.
FindNext-charge-battery = Naładuj akumulator. Szukanie pójdzie samo.
FindNext-stop-engine = Zgaś silnik. Szukanie wymaga zgaszonego silnika.
FindNext-start-engine = Nikogo pod pojazdem, wąż spalin na dwór. Potem uruchom silnik, w P.
FindNext-warm = Zostaw silnik na wolnych obrotach, niech się rozgrzeje.
FindNext-spot = Tylko na czterech kobyłkach, z dala od wałów: zmierz miskę skrzyni. Podaj odczyt termometru.
FindNext-cold-soak = Zostaw pojazd na noc, potem zacznij od nowa.
FindNext-confirm = Pokazuje to samo co termometr? Wtedy potwierdź.
FindNext-by-thermometer = Ustaw poziom oleju w skrzyni według termometru.
FindNext-look-at-link = Obejrzyj adapter, potem zacznij szukanie od nowa.
FindNext-nothing = Nie ma tu nic więcej do zrobienia.

## EngineWord

EngineWord-idling = Jest na wolnych obrotach.
EngineWord-stopped = Jest zgaszony.

## Surface

Surface-tape = Matowa taśma na metalowej misce skrzyni.
Surface-matt-paint = Matowy lakier na metalowej misce skrzyni.
Surface-plastic = Plastikowa miska skrzyni.
Surface-bare-metal = Goły metal: odrzucony dla podczerwieni, pokazuje tylko otoczenie.
Surface-contact = Sonda dotykowa na metalowej misce skrzyni.
Surface-stream = Sonda w samym oleju.
Surface-air = Bez powierzchni: powietrze pod pojazdem.

## Narrowing

Narrowing-spot-on-tape = Pomiar termometrem na taśmie lub matowym lakierze na misce skrzyni.
Narrowing-air-under-vehicle = Temperatura powietrza pod pojazdem.

## Symptom

Symptom-slips = Ślizga się na biegu.
Symptom-flares = Obroty skaczą między dwoma biegami.
Symptom-late = Bieg wchodzi późno.
Symptom-hard = Bieg wchodzi twardo.
Symptom-whine = Wyje.
Symptom-shudder = Szarpie.
Symptom-lamp = Zapaliła się lampka.
Symptom-leak = Widziano olej pod pojazdem.
Symptom-worked-on = Niedawno ktoś przy tym pracował.
Symptom-none = Nic nie zauważono.

## Leak

Leak-dry = Sucho.
Leak-damp = Wilgotno: żadna kropla nie wisi.
Leak-drops = Tworzą się krople.
Leak-runs = Cieknie.

## LeakPlace

LeakPlace-pan = Przy misce skrzyni.
LeakPlace-pipe-or-plug = Przy rurce przelewowej albo korku.
LeakPlace-cooler-line = Przy przewodzie chłodnicy.
LeakPlace-axle-seal = Przy uszczelniaczu półosi.
LeakPlace-converter-housing = Przy obudowie przekładni hydrokinetycznej.
LeakPlace-not-seen = Miejsca nie widać.

## FluidLook

FluidLook-red = Czerwony albo jak nowy.
FluidLook-brown = Brązowy.
FluidLook-black = Czarny.
FluidLook-burnt = Pachnie spalenizną.
FluidLook-milky = Mleczny.
FluidLook-metal = Metal w oleju.

## Alarm

Alarm-air = Złe powietrze: zawroty głowy, ból głowy.
Alarm-burn = Ktoś się oparzył.
Alarm-caught = Ktoś jest przygnieciony albo wciągnięty.
Alarm-fire = Pożar.

## Part

Part-filter = Stary filtr, nasiąknięty.
Part-cooler = Chłodnica i jej przewody, opróżnione.
Part-pan = Miska skrzyni, zdjęta: to, co w niej zostało po spuszczeniu.
Part-converter = Przekładnia hydrokinetyczna, opróżniona.

## Refusal

Refusal-no-job = Nie rozpoczęto zlecenia: najpierw `tell start`.
Refusal-job-running = Zlecenie trwa: najpierw zakończ je przez `tell done` albo `tell abort`.
Refusal-not-yet = To przyjdzie później w zleceniu; jest jeszcze wcześniejszy krok do zrobienia.
Refusal-already-done = To już podano; `tell undo` to cofa.
Refusal-not-go = Nie obowiązuje `go`, więc poziom oleju nie może być teraz właściwy.
Refusal-not-the-sign = Ten pojazd pokazuje poziom oleju innym znakiem: podaj to, o co pyta ekran.
Refusal-port-closed = Nie podano, że korek kontrolny jest otwarty: najpierw `tell flowing`.
Refusal-port-open = Korek kontrolny jest jeszcze otwarty: zamknij go i najpierw `tell closed`.
Refusal-shown-by-vehicle = To pokazuje sam pojazd; człowiek nie może tego potwierdzić.
Refusal-not-needed = Dane pojazdu tego nie wymagają.
Refusal-not-level = Pojazd nie stoi dość równo: poziom oleju byłby błędny bardziej, niż pozwalają dane pojazdu.
Refusal-impossible-amount = Takiej ilości nie może być: więcej, niż mieści skrzynia, albo nie więcej niż nic.
Refusal-more-out-than-in = Wypłynęłoby więcej, niż kiedykolwiek było; zmierz ponownie.
Refusal-useless-surface = Goły metal odbija otoczenie: naklej matową taśmę i zmierz na niej.
Refusal-impossible-value = Żaden pojazd w warsztacie nie ma takiej wartości; zmierz ponownie.
Refusal-amount-unknown = Dane pojazdu nie mówią, ile to mieści: zmierz i podaj ilość.
Refusal-base-unknown = Dane pojazdu nie podają rozstawu osi i kół: podaj także je.
Refusal-corner-misread = Cztery rogi nie leżą na jednej płaszczyźnie: jeden źle odczytano. Zmierz ponownie.
Refusal-wrong-position = Następna jest inna pozycja dźwigni biegów; ekran pokazuje która.
Refusal-too-early = Dźwignia biegów nie stała dość długo w poprzedniej pozycji; ekran pokazuje jak długo.
Refusal-no-such-job = W dzienniku nie ma zlecenia o tym numerze.
Refusal-not-a-hash = To nie jest SHA-256: 64 cyfry szesnastkowe małymi literami.
Refusal-nothing-to-undo = Nie ma nic, co można by cofnąć.
Refusal-too-long = Tekst jest za długi: najwyżej 200 znaków.
Refusal-hidden-character = Tekst zawiera znak, którego nie widać, a który zmienia to, co widać.
Refusal-no-such-event = Zdarzenia o tym numerze jeszcze nie było; wysyłane jest to, co następne.
Refusal-too-many = To zlecenie ma tyle uwag, zdjęć i nazw pojazdu, ile jedno może mieć: resztę zapisz gdzie indziej.
Refusal-too-fast = To więcej, niż człowiek pisze w tak krótkim czasie: odczekaj kilka sekund i podaj ponownie.
Refusal-not-understood = To nie jest żądanie tego interfejsu.
Refusal-journal-full = Nie można zapisać dziennika, więc nic nie jest pewne. Zwolnij miejsce na dysku.
Refusal-band-decided = Który zakres obowiązuje, ustalono na początku zlecenia. Jeśli jest zły, zakończ zlecenie, podaj temperaturę powietrza i rozpocznij ponownie.
Refusal-needs-adapter = Te dane pojazdu opierają się na płynie chłodzącym, jak podaje pojazd; bez adaptera nikt tego nie czyta. Wybierz dane pojazdu z sygnałem `spot` albo `fluid`.
Refusal-no-such-sheet = Usługa nie dostała danych pojazdu o tej nazwie; `serve --sheets FOLDER` wskazuje ich folder.
Refusal-sheet-unconfirmed = Nikt tu nie potwierdził tych danych pojazdu: `standpipe sheet check FILE` mówi czego, `standpipe sheet confirm FILE` potwierdza je.
Refusal-no-sheet = Nie podano danych pojazdu, więc nie można ustawić poziomu oleju: zacznij ponownie z `--sheet FILE`.
Refusal-not-searching = Żadne szukanie identyfikatora nie trwa: `standpipe find` je zaczyna.
Refusal-no-such-candidate = Ten identyfikator nie jest tym, który prowadzi; ekran pokazuje, który to.
Refusal-not-agreed = Żaden termometr jeszcze się z tym nie zgadza: zmierz miskę skrzyni i najpierw podaj `spot`.
Refusal-not-settled = Może to być jeszcze więcej niż jeden identyfikator: niech się bardziej rozgrzeje.
Refusal-ended = Zlecenie jest zakończone; `tell start` rozpoczyna nowe.

## Shortfall

Shortfall-nothing-ran-out = Przy `go` nic nie wypłynęło, więc oleju jest za mało. Dolej, potem skontroluj ponownie przy właściwej temperaturze.
Shortfall-stays-dry = Przy `go` nic nie wypłynęło, choć dolano więcej, niż może brakować. Skończ nalewać: szukaj wycieku, innego korka i zobacz, jak stoi pojazd.
Shortfall-gush-only = Wyszedł tylko pierwszy chlust: oleju jest za mało. Dolej to, czego brakuje, i naddatek, potem skontroluj ponownie.
Shortfall-ran-out-too-much = Wypłynęło dużo więcej niż nadmiar: zły korek albo luźna rurka przelewowa? Dolej to, czego brakuje, potem skontroluj ponownie.
Shortfall-amount-off = Ilość w skrzyni nie jest przepisowa, albo starego oleju nie spuszczono do końca. Spuść olej do końca i nalej przepisową ilość.
Shortfall-gauge-low = Bagnet pokazuje poniżej tabeli: oleju jest za mało. Dolej tyle, ile według odczytu brakuje, potem odczytaj ponownie.
Shortfall-gauge-high = Bagnet pokazuje powyżej tabeli: oleju jest za dużo. Odessij trochę i zmierz, potem odczytaj ponownie.
Shortfall-not-read-twice = Żadne dwa odczyty bagnetu w zakresie nie zgadzają się do 2 mm. Wytrzyj, wsuń do oporu, odczytaj ponownie.
Shortfall-not-looked-again = Nikt nie skontrolował poziomu oleju po jeździe. Ustaw jeszcze raz równo i skontroluj.
Shortfall-not-opened = Korka kontrolnego nie otwarto, gdy obowiązywało `go`. Czekaj na kolejną właściwą temperaturę i wtedy ustaw poziom oleju.
Shortfall-opened-before-go = Korek kontrolny był otwarty, zanim obowiązywało `go`. To, co wtedy wypłynęło, ubyło z naddatku; ustaw poziom oleju ponownie przy właściwej temperaturze.
Shortfall-no-trickle = Gdy zamknięto korek kontrolny, strumień nie był jeszcze cienką strużką: oleju jest za dużo. Otwórz ponownie przy właściwej temperaturze i daj wypłynąć.
Shortfall-too-hot-before-trickle = Olej stał się za gorący, zanim strumień był cienką strużką. Zaczekaj, aż ostygnie, nalej podaną ilość i ustaw ponownie.
Shortfall-closed-late = Korek kontrolny zamknięto dopiero, gdy olej był za gorący: poziom oleju jest błędny. Zaczekaj, aż ostygnie, i ustaw ponownie.
Shortfall-closed-outside-go = Nie obowiązywało `go`, gdy zamknięto korek kontrolny. Ustaw ponownie przy właściwej temperaturze.
Shortfall-precondition-open = Czegoś nigdy nie potwierdzono: zobacz, co jest do zrobienia. Zrób to i ustaw poziom oleju ponownie.
Shortfall-not-level = Pojazd nie stał równo. Ustaw go równo i ustaw poziom oleju ponownie.
Shortfall-started-warm = Pojazd był ciepły, gdy zaczęło się zlecenie. Zaczekaj, aż płyn chłodzący i powietrze się zgodzą, potem zacznij ponownie.
Shortfall-sensor-untrusted = Temperaturze nie można było ufać, gdy się liczyła. Porównaj z termometrem na misce skrzyni: jeszcze nie wiadomo, co jest błędne.
Shortfall-link-lost-while-open = Adapter zniknął, gdy korek kontrolny był otwarty. Ustaw poziom oleju ponownie z pewnym połączeniem.
Shortfall-balance-open = To, co wypłynęło, nie pasuje do tego, co nalano. Czy wcześniej było za mało, nie spuszczono do końca, czy jest wyciek? Skontroluj wkrótce ponownie.
Shortfall-unmeasured = Nie zmierzono: ile spuszczono, nalano albo wypłynęło. Ilości nie mogą potwierdzić poziomu oleju.
Shortfall-too-hot = Olej był powyżej zakresu. Zgaś silnik, zaczekaj, aż ostygnie, i zacznij ponownie z zimnym pojazdem.
Shortfall-thin-evidence = Podane przez ludzi: nie było wszystkiego, czyli dwóch odczytów w zakresie, ostatniego najwyżej 2 min przed zamknięciem, zmierzonego ustawienia i strumienia ponad 15 s.
Shortfall-leak-seen = Podano wyciek i nikt go od tego czasu nie sprawdził. Najpierw usuń wyciek.
Shortfall-aborted = Zlecenie zakończono ręcznie.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Wyjdź spod pojazdu. Potem podłóż { $shims } i zmierz ponownie.
shims-both-rear = { $depth } pod obie tylne kobyłki
shims-both-front = { $depth } pod obie przednie kobyłki
shims-both-left = { $depth } pod obie lewe kobyłki
shims-both-right = { $depth } pod obie prawe kobyłki
shim-front-left = { $depth } z przodu po lewej
shim-front-right = { $depth } z przodu po prawej
shim-rear-left = { $depth } z tyłu po lewej
shim-rear-right = { $depth } z tyłu po prawej
shims-each = pod kobyłki { $parts }
fill-amount = Nalej { $amount }: to, co wypłynęło, i naddatek.
fill-first-amount = Silnik ma pozostać zgaszony. Najpierw nalej { $amount }.
fill-more-through-the-tube = Za mało oleju: dolej { $amount } przez rurę wlewu.
fill-more-amount = Zamknij korek kontrolny ręką. Za mało oleju: dolej { $amount }.
draw-out-amount = Za dużo oleju: odessij { $amount } z rury wlewu i zmierz.
add-that-amount = Zamknij korek ręką. Potem nalej { $amount }.
fill-here-amount = Za mało oleju: dolej { $amount } przez ten otwór.
let-out-amount = Za dużo oleju: silnik ma pozostać zgaszony. Wypuść { $amount } i zmierz.
not-driven-amount = Pojazd ma stać, jazda zabroniona. Brakuje { $amount }.
open-level-hole = Otwórz teraz korek otworu kontrolnego, z boku. Załóż okulary.
watch-until-it-drips = Patrz z boku. Powiedz, gdy tylko kapie.
be-ready-at-the-hole = Zajmij miejsce na dole. Zostaw otwór kontrolny zamknięty.
close-hole-not-right = Zamknij otwór kontrolny. Zła temperatura.
close-hole-too-hot = Zamknij otwór kontrolny. Za gorąco.
pipe-out-plug-in = Wyjmij rurkę, natychmiast wkręć korek ręką.
drain-and-measure = Spuść olej. Zmierz ilość i temperaturę.
fill-that-of-the-data = Nalej ilość z danych pojazdu.
close-up-cap-on = Wkręć korek spustowy ręką, zakrętka na rurę wlewu. Zabierz wąż i kuwetę.
cap-on-check-adapter = Zostaw zakrętkę założoną. Sprawdź wtyczkę adaptera.
gauge-and-cloth-ready = Przygotuj bagnet i szmatkę. Zostaw zakrętkę założoną.
fill-more-tube = Za mało oleju: dolej przez rurę wlewu.
cap-locked-tighten = Załóż zakrętkę na rurę wlewu, zablokuj. Najpierw silnik zgaszony, potem dokręć korek spustowy.
close-up-plugs = Wkręć korki ręką. Zabierz wąż i kuwetę.

## The result

level-low-by = Poziom oleju w skrzyni ustawiony, za mało o { $amount }.
level-high-by = Poziom oleju w skrzyni ustawiony, za dużo o { $amount }.
known-to-within = Znany z dokładnością ±{ $amount }.
known-to = Znany z dokładnością { $amount }.
was-low-by-more = Brakowało więcej niż { $amount }.
was-right-within = Był właściwy, znany z dokładnością ±{ $amount }.
was-low-by = Brakowało około { $amount }, ±{ $within }.
was-high-by = Było za dużo o około { $amount }, ±{ $within }.
less-than-before = O { $amount } mniej niż przedtem.
more-than-before = O { $amount } więcej niż przedtem.
as-much-as-before = Tyle samo co przedtem.
mend-leak-first = Najpierw usuń wyciek. Potem ustaw poziom oleju ponownie.
find-why-it-stays-low = Ustal przed jazdą, czemu ciągle jest za mało. Potem ustaw ponownie.
recheck-on-the-day = Skontroluj poziom oleju w skrzyni, na zimno, w dniu z raportu.
fill-then-open-again = Nalej { $amount }, potem przy właściwej temperaturze otwórz korek kontrolny. Czekaj na cienką strużkę.
open-again-let-run = Przy właściwej temperaturze otwórz ponownie korek kontrolny, pojazd równo. Czekaj na cienką strużkę.
put-right-and-fill = Zrób to, co podano niżej, nalej { $amount }. Potem ustaw ponownie.
put-right-and-set-again = Zrób to, co podano niżej. Potem ustaw poziom oleju ponownie.

## What comes next: at most eight words

next-stands-level-hose = Kobyłki, ustawienie równo, wąż spalin.
next-drain-fill-port-first = Spuścić olej, najpierw korek wlewu.
next-measure-how-it-stands = Zmierzyć, jak stoi pojazd.
next-read-the-container = Przeczytać opakowanie.
next-drain = Spuścić olej.
next-pipe-back-in = Założyć rurkę przelewową, ręką.
next-fill-and-circulate-again = Nalać ponownie, potem znowu obieg oleju.
next-fill = Nalać to, co wypłynęło, i naddatek.
next-close-up-come-out = Oba korki na miejsce, zabrać kuwetę, wyjść.
next-come-out-engine-starts = Wyjść spod pojazdu. Potem startuje silnik.
next-brake-and-selector = Noga na hamulcu, dźwignia biegów przez pozycje.
next-stay-out-until-near = Zostać z dala, aż właściwa temperatura będzie blisko.
next-go-below-when-near = Miejsce na dole, gdy właściwa temperatura będzie blisko.
next-open-at-the-word = Korek kontrolny zostaje zamknięty, aż padnie hasło.
next-read-once-more = Wytrzeć i odczytać jeszcze raz.
next-thin-thread-close = Cienka strużka: zamknąć ręką.
next-engine-off-jug-plugs = Silnik zgaszony, odczytać dzbanek, dokręcić korki.
next-open-only-when-right = Dopiero przy właściwej temperaturze otworzyć ponownie.
next-let-it-cool = Zaczekać, aż ostygnie; właściwa temperatura wróci.
next-right-plug-pipe-in = Silnik zgaszony, odczytać dzbanek. Właściwy korek, rurka przelewowa?
next-look-again = Skontrolować ponownie przy właściwej temperaturze.
next-wipe-dry-look = Wytrzeć do sucha, wyjść, szukać wycieków.
next-engine-on-look-for-drops = Silnik znowu włączony, szukać kropel.
next-lower-and-drive = Wyjść. Potem pojazd staje na kołach i jedzie.
next-drive-a-short-way = Postawić pojazd na koła, przejechać kawałek.
next-finish = Zakończyć raport.
next-check-again = Skontrolować ponownie, na zimno, w dniu z raportu.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Zamknij korek kontrolny, jeśli jest otwarty.
leave-the-engine = Zostaw silnik tak, jak jest.
check-adapter-plug = Sprawdź wtyczkę adaptera.
check-which-device = Sprawdź, które urządzenie podano.
use-another-adapter = Użyj innego adaptera.
check-ignition-and-plug = Sprawdź zapłon i wtyczkę adaptera.
wait-until-it-answers = Czekaj, aż odpowie.
check-the-sheet = Sprawdź dane pojazdu.
none-yet = { $signal }: jeszcze bez odczytu
vehicle-silent = pojazd milczy
adapter-silent = adapter milczy
adapter-gone = adapter zniknął
no-adapter = brak adaptera
adapter-in-trouble = usterka adaptera
signal-refused = { $signal }: odmowa
signal-missing = { $signal }: brak odczytu
name-reading = temperatura
name-fluid = olej skrzyni
name-coolant = płyn chłodzący
name-spot = termometr
name-display = wyświetlacz
name-lamp = lampka

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } runda, po { $dwell } s w każdej pozycji
    [few] { $rounds } rundy, po { $dwell } s w każdej pozycji
    [many] { $rounds } rund, po { $dwell } s w każdej pozycji
   *[other] { $rounds } rundy, po { $dwell } s w każdej pozycji
}
move-on-round = przesuń, runda { $round } z { $rounds }
seconds-more-round = jeszcze { $seconds } s, runda { $round } z { $rounds }
brake-begin-in = Trzymaj nogę na hamulcu. Zacznij w { $position }.
brake-stay-in = Trzymaj nogę na hamulcu. Zostań w { $position }.
brake-back-to = Trzymaj nogę na hamulcu. Wróć do { $position }.
brake-move-to = Trzymaj nogę na hamulcu. Przesuń do { $position }.
offer-begin-in = Jest w { $position }: zacznij
offer-back-in = Teraz znowu w { $position }
offer-now-in = Teraz w { $position }

## Why, with numbers

head-fluid = Olej skrzyni
head-coolant = Płyn chłodzący
head-sump = Miska skrzyni
head-display = Wyświetlacz
head-lamp = Zakres lampki
signal-below-band = { $signal }: { $celsius } ± { $u }, poniżej zakresu { $band }.
signal-above-band = { $signal }: { $celsius } ± { $u }, powyżej zakresu { $band }.
signal-inside-band = { $signal }: { $celsius } ± { $u }, w zakresie { $band }.
fluid-about = Olej skrzyni: około { $celsius } ± { $u }.
better-reading = Lepiej: { $reading } (± { $u }).
runs-out-in-time = Wypłynie za około { $needs } min, czasu jest { $window }.
runs-out-tight = Wypłynie za około { $needs } min, czasu jest { $window }. Na styk: wszystko pod ręką, otwórz bez zwłoki.
runs-out-too-long = Wypłynie za około { $needs } min, czasu jest { $window }. Zamknij na czas, resztę zrób w drugiej rundzie.
warming-a-minute = Grzeje się o { $rate } na minutę.
cooling-a-minute = Stygnie o { $rate } na minutę.

## The search for the identifier

identifier-found = Identyfikator: znaleziony.
identifier-not-found = Identyfikator: nie znaleziony.
identifiers-asked = Identyfikator: zapytano { $asked } z około { $planned }
identifier-stopped = Identyfikator: zatrzymano.
identifier-is-left = Identyfikator: zostaje { $place }.
identifiers-may-be-it = Identyfikator: możliwych { $left }.
it-shows = Pokazuje { $celsius }.
seconds-left = jeszcze około { $count } s
minutes-left = jeszcze około { $count } min

## Nothing is known

close-port-nothing-known = Zamknij korek kontrolny. Nic nie wiadomo.
keep-port-closed-nothing-known = Zostaw korek kontrolny zamknięty. Nic nie wiadomo.
leave-engine-nothing-known = Zostaw silnik tak, jak jest. Nic nie wiadomo.
keep-port-closed = Zostaw korek kontrolny zamknięty.
leave-gauge-nothing-known = Zostaw bagnet. Nic nie wiadomo.
without-the-daemon = bez usługi
daemon-does-not-answer = Usługa nie odpowiada. Po ponownym uruchomieniu pójdzie od miejsca, w którym była.
no-daemon-for = brak usługi, { $seconds } s
a-person-tells-it = Podaje ją człowiek.
last-reading-too-old = Ostatni odczyt jest za stary. Wróci sam.

## Names and counts on a screen

job-number = zlecenie { $job }
data-unconfirmed = Nikt nie potwierdził tych danych pojazdu. Żadne zlecenie z nimi nie ruszy.
data-guessed = Dane pojazdu są zgadywane: ± jest szersze. Plan mówi, co pomoże najbardziej.
look-again-in = Skontroluj ponownie za około { $minutes } min.
still-open = Do zrobienia: { $what }.
until-window-opens = do właściwej temperatury
until-window-closes = jeszcze przy właściwej temperaturze
until-read-again = do następnego odczytu
until-back-in-band = na ostygnięcie, silnik zgaszony
without-a-reading = bez odczytu
torque-pipe = rurka przelewowa { $torque }
torque-check-plug = korek kontrolny { $torque }
torque-fill-plug = korek wlewu { $torque }
told-by-people = podane: { $what }
signal-seconds-ago = { $signal }: { $count } s temu
signal-minutes-ago = { $signal }: { $count } min temu
step-of = krok { $step } z { $steps }: { $name }
step-prepare = przygotowanie
step-drain = spuszczanie oleju
step-fill = nalewanie
step-circulate = obieg oleju
step-window = temperatura
step-run-out = wypływ
step-trickle = cienka strużka
step-close = zamykanie
step-torque = dokręcanie
step-test-drive = jazda próbna
step-recheck = ponowna kontrola
amount-drained = spuszczono { $amount }
amount-filled = nalano { $amount }
amount-ran-out = wypłynęło { $amount }
amount-should-run-out = ma wypłynąć { $amount }
amounts-at = { $amounts } (przy { $celsius })

## The one huge word

word-wait = czekaj
word-go = teraz
word-too-hot = za gorąco
word-no-reading = bez odczytu

## What can be told: buttons

offer-start-the-job = Rozpocznij zlecenie
offer-another-kind-of-job = Inny rodzaj zlecenia
offer-choose-another-sheet = Wybierz inne dane pojazdu
offer-hot-day-the-air-outside-in-the-shade = Upał? Powietrze na dworze, w cieniu
offer-no-drive-is-felt-in-gear = Na biegu nie czuć napędu
offer-it-differs-not-this-fluid = Różni się: nie ten olej
offer-drained-how-much = Spuszczono: ile
offer-filled-how-much = Nalano: ile
offer-it-was-in-and-more-came-out-how-much = Była założona, wypłynęło więcej: ile
offer-ran-out-how-much = Wypłynęło: ile
offer-it-still-flows = Jeszcze płynie
offer-filled-more-how-much = Dolano: ile
offer-fluid-flows-from-the-check-port = Olej płynie z korka kontrolnego
offer-nothing-runs-out = Nic nie leci
offer-it-only-drips = Tylko kapie
offer-it-is-a-thin-thread-now = Jest cienka strużka
offer-it-stands-at-the-lower-edge = Stoi przy dolnej krawędzi
offer-it-stands-below-the-edge-how-far = Stoi poniżej krawędzi: ile
offer-it-runs-out-over-the-edge = Wypływa przez krawędź
offer-fluid-runs-out-there = Tamtędy wypływa olej
offer-drawn-out-how-much = Odessano: ile
offer-ran-out-from-the-jug-how-much = Wypłynęło, według dzbanka: ile
offer-plugs-tightened-to-the-torques = Korki dokręcone momentem
offer-driven-no-leak-seen = Po jeździe, wycieku nie widać
offer-write-the-record = Zakończ raport
offer-check-port-closed-hand-tight = Korek kontrolny zamknięty, ręką
offer-fluid-flows-now-at-go = Olej płynie, temperatura właściwa
offer-it-leaks-damp-drops-runs = Wyciek: wilgotno, krople, cieknie
offer-how-it-stands-measured = Jak stoi pojazd, zmierzone
offer-the-gauge-shows = Bagnet pokazuje
offer-the-number-on-the-display = Liczba na wyświetlaczu
offer-a-thermometer-s-reading = Odczyt termometru
offer-it-stands-on-four-stands = Stoi na czterech kobyłkach
offer-the-lift-is-known-to-be-level = Podnośnik na pewno stoi równo
offer-the-exhaust-goes-outside = Spaliny idą na dwór
offer-the-brake-is-held = Hamulec jest wciśnięty
offer-the-cooler-pin-is-in = Bolec zaworu chłodnicy jest włożony
offer-rounds-done-selector-back-in-p-parking-brake = Rundy zrobione, P, hamulec postojowy
offer-p-parking-brake-on-chocks = P, hamulec postojowy, kliny
offer-the-fill-port-is-open = Korek wlewu jest otwarty
offer-container-read-the-same-words = Opakowanie przeczytane: te same słowa
offer-the-pipe-is-in = Rurka przelewowa jest założona
offer-both-plugs-in-tray-and-hose-away = Oba korki wkręcone, kuweta i wąż zabrane
offer-i-am-out-and-clear = Stoję obok
offer-the-cooler-pin-is-out = Bolec zaworu chłodnicy jest wyjęty
offer-no-leak-seen = Wycieku nie widać
offer-covers-and-wheel-are-back-on = Osłony i koło są założone
offer-the-service-mode-is-on = Tryb serwisowy jest włączony
offer-ready-is-off-key-below = READY wyłączone, kluczyk na dole
offer-it-is-dry = Jest sucho
offer-everybody-is-safe = Wszyscy są bezpieczni
offer-it-started-cold = Uruchomiony na zimno
offer-selector-in-the-position-of-the-look = Dźwignia biegów w pozycji do kontroli
offer-it-is-so = Tak jest
offer-recheck-of-number = Ponowna kontrola zlecenia: numer
offer-the-check-port-is-open-fluid-flows = Korek kontrolny otwarty, olej płynie
offer-the-check-port-is-open-nothing-comes = Korek kontrolny otwarty, nic nie leci
offer-old-fluid-went-with-a-part = Stary olej ubył z jakąś częścią
offer-kept-back-as-a-sample-how-much = Zostawiono jako próbkę: ile
offer-four-heights-front-left-right-rear-left-righ = Cztery wysokości: przód lewy, prawy, tył lewy, prawy
offer-a-remark-for-the-record = Uwaga do raportu
offer-which-vehicle-plate-or-order = Pojazd: rejestracja lub nr zlecenia
offer-write-the-record-now = Zakończ raport już teraz
offer-end-the-job-without-a-level = Zakończ zlecenie bez poziomu oleju
offer-somebody-is-in-danger = Ktoś jest w niebezpieczeństwie
offer-spilled-at-the-drain-by-eye-how-much = Rozlano przy spuszczaniu, na oko: ile
offer-spilled-while-filling-by-eye-how-much = Rozlano przy nalewaniu, na oko: ile
offer-spilled-at-the-check-port-by-eye-how-much = Rozlano przy korku kontrolnym, na oko
offer-it-is-the-fluids = To jest olej skrzyni: { $place }
offer-lamp-too-cold = Lampka za zimno: { $shows }
offer-lamp-right = Lampka właściwie: { $shows }
offer-lamp-too-hot = Lampka za gorąco: { $shows }

## What is asked with a choice

choice-check = tylko kontrola poziomu oleju
choice-alone = wymiana, jedna osoba sama
choice-check-alone = tylko kontrola, jedna osoba sama

## On every screen

say-next = Następnie: { $what }
say-balance = Ilości: { $what }
say-undo = Cofnij: { $what }
hold-to-tell = przytrzymaj, by potwierdzić
hold-longer = Przytrzymaj trochę dłużej: { $what }.
told = Wpisano.
refused = Nie wpisano: { $why }
not-told-no-contact = Nie wpisano: brak kontaktu.
let-be = Zostaw tak

## The terminal

term-open = do zrobienia: { $what }
term-twice = (dwa razy)
term-more = m więcej
term-more-page = m więcej ({ $page } z { $pages })
term-other-seat = i drugie miejsce
term-undo = u cofnij: { $what }
term-leave = q wyjdź z programu
term-press-again = { $what }: naciśnij { $key } jeszcze raz.
term-nothing-to-take-back = Nic z ostatniej minuty nie da się cofnąć.
term-like-amount = jak 2.4L 22C
term-like-depth = jak 3mm
term-like-level = pochylenie i przechył, jak 0.1deg -0.2deg
term-like-spot = jak 38.5C tape; { $surfaces }
term-like-temperature = jak 41C
term-like-number = jego numer: { $names }
term-then-enter = potem Enter

## The page

page-connecting = łączenie
page-nothing-known-yet = Nic jeszcze nie wiadomo.
page-pipe-nothing-known = Rurka przelewowa: nic nie wiadomo
page-pipe-shows = Rurka przelewowa: { $celsius }, zakres { $low } do { $high }
page-positions = Pozycje dźwigni biegów
page-still-open = Do zrobienia
page-cautions = Ostrzeżenia
page-more = Więcej
page-elsewhere = Inne strony
page-seat-inside = Miejsce w środku
page-seat-under = Miejsce pod pojazdem
page-jobs = Zlecenia i raporty
page-plan = Plan
page-data = Dane pojazdu
page-sound = Dźwięk
page-sound-on = Dźwięk jest włączony
page-sound-off = Dźwięk jest wyłączony
page-volume = Głośność
page-vibration-on = Wibracja jest włączona
page-vibration-off = Wibracja jest wyłączona
page-hear-all = Posłuchaj wszystkich
page-tell = Wpisz
page-close = Zamknij okno
page-pair-title = Sparuj tę przeglądarkę
page-pair-where = Kod jest w terminalu usługi; standpipe page pair pokazuje nowy.
page-code = Kod
page-pair-clear = Ta strona nie jest szyfrowana: kto podsłuchuje w tej sieci, może czytać i przejąć kod.
page-pair = Sparuj
page-no-contact = brak kontaktu
page-no-contact-for = brak kontaktu, { $seconds }
page-without-contact = bez kontaktu
page-no-daemon = Brak kontaktu z usługą. Wróci sam.
page-leave-engine = Zostaw silnik tak, jak jest. Nic nie wiadomo.
page-close-port-if-open = Zamknij korek kontrolny, jeśli jest otwarty. Nic nie wiadomo.
page-how-much = Ile
page-how-warm = Jaka była temperatura
page-depth = Odczytane lub zmierzone
page-pitch = Pochylenie, przód wyżej to plus
page-roll = Przechył, lewa strona wyżej to plus
page-temperature = Temperatura
page-thermometer-shows = Termometr pokazuje
page-held-to = Przyłożony do lub skierowany na
page-in-your-words = Własnymi słowami
page-which = Które
page-degrees = stopnie
page-no-job = Nie ma jeszcze zlecenia.
page-job = Zlecenie { $job }, { $day }

## What can be taken back

undo-level = zmierzone ustawienie
undo-drained = ilość spuszczona
undo-filled = ilość wlana
undo-ran-out = ilość, która wypłynęła
undo-gauge = odczyt miarki
undo-answer = ostatnia odpowiedź
undo-selector = wybierak w { $position }
undo-trickle = cienka strużka
undo-drips = krople
undo-torqued = dokręcone korki
undo-test-driven = jazda próbna

## How a bay is

status-job = Zlecenie { $job } trwa.
status-adapter = Adapter: { $what }
status-by-people = Adapter: brak, wszystko zgłaszają ludzie
status-port-shut = Adapter: { $what }, port jest zamknięty
status-vehicle = Pojazd: odpowiada przez { $what }
status-vehicle-silent = Pojazd: brak odpowiedzi
status-reading = Ostatni odczyt: { $celsius }, { $age } temu
status-no-reading = Ostatni odczyt: brak
status-disk = Dziennik: { $free } wolnego na dysku
status-disk-silent = Dziennik: dysk nie odpowiada
status-clock = Zegar: { $time }
status-clock-behind = Zegar: { $time }, spóźniony o { $behind }
status-clients = Klienci: { $here } z { $most }, razem z tym
status-running = Usługa: wersja { $version }, działa od { $time }

## Health

Health-healthy = Jest wszystko, czego potrzebuje zlecenie.
Health-waiting = Działa i czeka: nic jeszcze nie da się odczytać.
Health-needs-a-hand = Działa, ale ktoś musi coś zrobić.

## Ailment

Ailment-no-adapter = Adaptera nie ma albo nie odpowiada.
    .remedy = Sprawdź jego wtyczkę i kabel; wróci sam.
Ailment-no-vehicle = Pojazd nie odpowiada.
    .remedy = Sprawdź, czy adapter siedzi mocno w gnieździe.
Ailment-no-reading = Temperatura do kontroli nie jest odczytywana.
    .remedy = Poczekaj kilka sekund; potem sprawdź identyfikator w danych pojazdu.
Ailment-disk-full = Dysk dziennika jest prawie pełny.
    .remedy = Zwolnij miejsce przed następnym zleceniem.
Ailment-disk-slow = Dysk dziennika jest powolny: zdarzenia na niego czekają.
    .remedy = Użyj innej karty albo innego dysku na dziennik.
Ailment-clock-behind = Zegar jest spóźniony wobec tego, co dziennik już zawiera.
    .remedy = Ustaw zegar: raporty noszą jego datę.

## ClosureCause

ClosureCause-opened-early = Otwarto przed właściwą temperaturą: wypłynęło też to, co wziąłby konwerter. Nalej i ustaw ponownie.
ClosureCause-engine-stopped = Silnik zgasł przy otwartym korku: wypłynęło też to, co wraca z konwertera. Ustaw ponownie.
ClosureCause-wrong-temperature = Ilość podano bez temperatury albo z błędną: ciepły olej zajmuje więcej. Mierz ciepło i ilość razem.
ClosureCause-was-low-before = Przed zleceniem było za mało: część dodatku to wyrównała. Zapytaj, od kiedy, i poszukaj starego wycieku.
ClosureCause-not-all-caught = Nie wszystko, co wypłynęło, zebrano. Wpisz, ile rozlano, na oko.
ClosureCause-leak = Olej ucieka gdzie indziej. Obejrzyj korki, uszczelkę miski i przewody chłodnicy przed wyjazdem.
ClosureCause-was-high-before = Przed zleceniem było za dużo oleju.
ClosureCause-tube-not-seated = Rurka przelewowa nie jest do oporu: olej wypłynął obok i go brakuje. Dokręć momentem i ustaw ponownie.
ClosureCause-drained-not-fully = Spuszczono mniej, niż przewidują dane: zostało więcej starego oleju. Poziom od tego nie zależy.

## Cause

Cause-temperature = Przy zamykaniu olej nie był w środku zakresu.
Cause-tilt = Pojazd nie stał dokładnie poziomo.
Cause-warming = Olej ogrzewał się, kapiąc: nad krawędzią stało więcej niż zwykle.
Cause-amount = Nalana ilość różni się od podanej, na ile mówią naczynia.
Cause-guess = To, co zgadywane w danych pojazdu.
Cause-residual = Film nad krawędzią różni się od tego przy zwykłej cienkiej strużce.

## Fault

Fault-code-stored = Pojazd ma zapisany kod usterki.
Fault-not-an-adapter = To, co odpowiada na tym porcie, nie jest takim adapterem.
Fault-adapter-fault = Adapter zgłasza własny błąd.
Fault-bus-fault = Magistrala pojazdu zakłóca wymianę.
Fault-no-answer = Sterownik nie odpowiada na zapytanie.
Fault-declined = Sterownik odrzuca zapytanie.
Fault-undecodable = Odpowiedzi nie dało się odczytać, nie powstał odczyt.
Fault-units-disagree = Sterowniki podają różne wartości tej samej wielkości.
Fault-avoided = Połączenie zrywało się przy każdym wysłaniu; teraz wysyłane na końcu i rzadko.
Fault-wrong-sender = Odpowiedział sterownik, którego nie pytano.
Fault-journal-slow = Dysk jest wolny.
Fault-journal-failed = Nie da się zapisać dziennika.
Fault-journal-repaired = Dziennik był uszkodzony; to, co czytelne, działa dalej, uszkodzony plik zostaje.
Fault-journal-damaged = Coś w dzienniku nie jest tym, co zapisano.

## Way

Way-drained = Z tego, co spuszczono.
Way-filled = Z tego, co miało wejść.
Way-ran-out = Z tego, co wypłynęło korkiem kontrolnym.

## LampState

LampState-too-cold = Poniżej zakresu.
LampState-right = W zakresie.
LampState-too-hot = Powyżej zakresu.

## Step

Step-prepare = Przygotuj: kobyłki, poziom, wentylację, narzędzia, pojemniki; korek wlewu otwiera się przed spuszczeniem.
Step-drain = Spuść i zmierz, ile wyszło i jak było ciepłe.
Step-fill = Nalej tyle, ile wyszło, i dodatek z danych pojazdu.
Step-circulate = Uruchom silnik; hamulec wciśnięty, przejdź dźwignią pozycje.
Step-window = Poczekaj na właściwą temperaturę.
Step-run-out = Otwórz korek kontrolny i daj wypłynąć nadmiarowi.
Step-trickle = Strumień stał się cienką strużką.
Step-close = Zamknij korek kontrolny.
Step-torque = Dokręć korki momentami z danych pojazdu.
Step-test-drive = Przejedź krótki odcinek, poszukaj wycieków.
Step-recheck = Po kilku dniach skontroluj poziom ponownie, na zimno.

## Hint

Hint-four-stands = Cztery kobyłki albo właściwy podnośnik.
Hint-inclinometer = Pochyłomierz, telefon albo miara.
Hint-exhaust-hose = Wąż do spalin.
Hint-measuring-jug = Naczynie z miarką.
Hint-thermometer = Termometr.
Hint-tray = Wanienka.
Hint-gloves-and-glasses = Rękawice, okulary.
Hint-new-fluid = Nowy olej.
Hint-pump = Pompka albo lejek z wężem.
Hint-empty-jug = Puste naczynie z miarką.
Hint-lamp = Lampa.
Hint-torque-wrench = Klucz dynamometryczny.
Hint-new-seals = Nowe uszczelki, jak podaje producent.
Hint-its-own-gauge = Bagnet należący do pojazdu.
Hint-cloth = Szmatka bez kłaczków.
Hint-fill-stated = Nalej podaną ilość, odmierzoną.
Hint-fill-there = Nalej przez otwór, w którym się sprawdza: tyle, ile wyszło.
Hint-only-drips = Tylko kapie.
Hint-close-by-hand = Zamknij ręką.
Hint-no-port-here = Tu nie otwiera się korka: bagnet czyta się w rurce, w mm.
Hint-read-twice = Wytrzyj, wsuń do oporu, wyjmij, odczytaj; potem jeszcze raz.
Hint-two-must-agree = Liczą się dwa zgodne do 2 mm. Niewytarty albo nie do oporu nic nie mówi.
Hint-clean-the-cap = Najpierw oczyść wokół nakrętki; między sprawdzeniami znów ją załóż.
Hint-air-springs = Tryb podnoszenia włączony, nadwozie na kobyłkach lub podnośniku, zanim ktoś wejdzie pod spód.
Hint-orange = Pomarańczowe to wysokie napięcie: tylko dla przeszkolonych, nigdy nie ciąć ani nie ruszać.
Hint-on-a-lift = Na podnośniku: P, hamulec postojowy, wysiądź. Podnieś, opuść na blokady; nikogo pod spodem, gdy jedzie.
Hint-sit-down-first = Usiądź, zanim drugi wejdzie pod spód; wysiądź dopiero, gdy pod spodem jest pusto.
Hint-wash-hands = Rękawice na ręce, myć mydłem, zmienić przemoczone ubranie.
Hint-photo-if-black = Czarny, spalony, z metalem: zdjęcie, i klient decyduje, zanim pójdziesz dalej.
Hint-never-what-ran-out = Tylko nowy olej, nigdy ten, który wypłynął.
Hint-out-of-a-pit = Poza kanałem, aż przyjdzie czas; wąż założony.
Hint-wipe-around = Najpierw wytrzyj wokół korka, oczyść wąż i pompkę.
Hint-new-washer = Nowa podkładka trafia na korek, gdy olej wypływa.
Hint-fan-may-start = Wentylator może ruszyć sam przy wyłączonym silniku: ręce precz.
Hint-wipe-while-hot = Na gorąco wycieraj suchą szmatką; spryskuj tylko na zimno, silnik wyłączony.
Hint-all-but-the-stands = Wszystko oprócz kobyłek, aż ruszy silnik.
Hint-brake-any-time = Hamulec w każdej chwili; pozycje tylko przy pracującym silniku.
Hint-jug-may-wait = Naczynie można odczytać później.

## The report: what the customer reads

date = { $day } { $month ->
    [1] stycznia
    [2] lutego
    [3] marca
    [4] kwietnia
    [5] maja
    [6] czerwca
    [7] lipca
    [8] sierpnia
    [9] września
    [10] października
    [11] listopada
   *[12] grudnia
} { $year }
report-title = Raport: olej w skrzyni biegów
report-of-job = Zlecenie { $job }, { $day }
times-from-to = { $from } do { $to }
times-since = od { $from }
label-and-value = { $label }: { $value }
job-not-ended = Zlecenie nie jest zakończone.
what-was-done = Co zrobiono?
is-it-right = Czy poziom oleju jest właściwy?
may-i-drive = Czy mogę jechać?
when-to-come-again = Kiedy przyjechać ponownie?
what-it-costs = Ile to kosztuje?
what-you-should-know = Co jeszcze trzeba wiedzieć
answer-yes = Tak.
answer-probably = Prawdopodobnie.
answer-no = Nie.
done-changed = Olej w skrzyni wymieniono: spuszczono { $drained }, nalano { $filled } nowego oleju.
done-only-drained = Spuszczono { $drained } oleju. Nowego oleju nie wpisano.
done-only-filled = Nalano { $filled } nowego oleju.
done-nothing-entered = Nie wpisano żadnej ilości oleju.
done-checked = Sprawdzono poziom oleju w skrzyni.
done-checked-again = Poziom oleju sprawdzono ponownie po zleceniu { $job }.
done-fresh-share = Nowy olej stanowi teraz { $percent } %.
drive-not-before-the-end = Dopiero po zakończeniu zlecenia.
drive-not-said = Ten raport tego nie mówi. Zapytaj w warsztacie, zanim pojedziesz.
again-not-right = To jeszcze nie koniec. Warsztat musi ustawić poziom oleju.
days-and = { $days } i { $last }
again-no-day = Nie podano dnia.
again-on = { $days }. Niech postoi noc wcześniej: poziom sprawdza się na zimno.
customer-other-cause = Poziom oleju był właściwy, usterka ma więc inną przyczynę. Sam nowy olej jej nie usunie.
customer-driven-low = Jeżdżono ze zbyt małą ilością oleju. Mogło to spowodować zużycie.
customer-ask-history = Było za mało oleju, ale wycieku nie widać. Kto ostatnio przy nim pracował?
customer-filled-wrong = Przed tym zleceniem było za dużo oleju.
customer-worn = Stary olej był czarny, spalony albo z metalem: zużycie w środku. Zapytaj, co radzi warsztat.
customer-water-in = Stary olej był mleczny: dostała się woda lub płyn chłodzący. Trzeba znaleźć przyczynę.
customer-codes = Pojazd ma zapisane kody usterek: { $codes }. Zapytaj w warsztacie, co oznaczają.
customer-guessed = Część danych pojazdu jest zgadywana. Dlatego poziom jest znany mniej dokładnie.
label-not-confirmed = Niepotwierdzone
label-vehicle = Pojazd
label-vin = Numer nadwozia (VIN)
label-odometer = Stan licznika
label-date = Kiedy
label-workshop = Warsztat
label-technician = Mechanik
label-fluid = Olej
label-batch = Partia na opakowaniu
label-cost = Koszt
sign-technician = Mechanik, data
sign-customer = Klient, data

## The report: what the next technician reads

for-the-next-technician = Dla następnego mechanika
label-guessed = Zgadywane w danych pojazdu
guesses-cost = Znany z dokładnością ±{ $with } ze zgadywaniem, ±{ $without } bez.
guess-that-helps-most = Najbardziej pomogłoby: { $what }. Wtedy ±{ $within }.
label-recheck = Ponowna kontrola
recheck-compared = Zostawiono { $left }, znaleziono { $found }: zmiana { $change }, ±{ $within }.
recheck-agrees = Mieści się w dokładności obu.
recheck-differs = To więcej niż niedokładność obu.
recheck-not-comparable = Nie można ich porównać.
label-told-before = Skarga przedtem
label-told-after = Po ustawieniu poziomu
label-level-error = Odchyłka poziomu
level-error-is = { $amount }, ±{ $within } (k = 2); { $height } przy rurce przelewowej. Plus to za dużo.
label-band = Właściwa temperatura
band-by = { $low } do { $high }, odczyt: { $signal }
label-torques = Momenty dokręcania
as-the-maker-says = jak podaje producent pojazdu
label-data = Dane pojazdu
label-link = Odczyt przez
entry-all-by-people = Bez adaptera: wszystko wpisali ludzie.
label-readings = Odczyty
readings-read = { $count }, najwyżej sprzed { $age } ms.
readings-told = { $count }, wpisane przez ludzi.
readings-apart = Odstęp najwyżej { $seconds } s.
readings-pauses = Przerwy ponad 5 s: { $count }, najdłuższa { $seconds } s.
readings-losses = Utrata kontaktu: { $count } ×.
readings-restarts = Program uruchomiony ponownie: { $count } ×.
readings-known-at-closing = Niepewność standardowa przy zamykaniu: { $u }.
section-wrong = Co było nie tak i co zrobić
section-temperature = Temperatura w czasie
section-budget = Odchyłka poziomu i z czego się składa
section-balance = Zmierzone ilości
section-codes-and-fluid = Kody usterek i stary olej
section-old-fluid = Stary olej
section-steps = Kroki
section-told = Co wpisano i kiedy
section-on-the-way = Co się zdarzyło po drodze
section-stops = Pokazane ostrzeżenia
section-photos = Zdjęcia
section-cautions = Pokazane zasady bezpieczeństwa
budget-cause = Przyczyna
budget-amount = Ilość
budget-u = Niepewność standardowa
budget-together = Razem, ± przy k = 2
balance-drained = spuszczono
balance-filled = nalano
balance-ran-out = wypłynęło
balance-with-parts = z częściami
balance-spilled = rozlano, na oko
balance-kept = zostawiono
balance-expected = Ma wypłynąć
balance-closure = Wypłynęło minus ile miało
amount-and-uncertainty = { $amount }, niepewność standardowa { $u }
balance-fresh = Nowy olej
balance-waste = Olej odpadowy
codes-before = Kody usterek na początku
codes-after = Nowe w czasie zlecenia
codes-none-told = pojazd nie podał żadnych
codes-nobody-read = nie odczytano: nie było adaptera
old-fluid-not-entered = Nikt nie wpisał, jak wyglądał.
state-open = nie zaczęto
state-started = zaczęto
state-done = zrobiono
state-failed = nie udało się
state-undone = cofnięto
who-under = pod pojazdem
who-inside = w środku
who-vehicle = pojazd
who-person = człowiek
entry-at = { $what } przy { $celsius }
entry-spilled = Rozlano { $amount }, na oko.
as-the-data-says = jak w danych pojazdu
entry-kept = Zostawiono { $amount }
entry-level = Zmierzono: przód { $pitch }, lewa strona { $roll }
entry-corners = Wysokości: przód { $front }, tył { $rear }
entry-air = Powietrze na zewnątrz
engine-idling = Silnik pracuje na biegu jałowym
engine-stopped = Silnik jest wyłączony
entry-below-edge = { $depth } poniżej dolnej krawędzi
entry-gauge = Bagnet pokazuje { $depth }
entry-confirmed = Potwierdzono
entry-selector = Dźwignia
entry-photo = Zdjęcie
entry-recheck-of-job = Ponowna kontrola zlecenia
entry-identifier = Potwierdzono identyfikator oleju
entry-leak = Wyciek
entry-alarm = Alarm
entry-ended-by-hand = Zakończono ręcznie
entry-remark = Uwaga
entry-taken-back = Cofnięto
entries-before = wcześniej jeszcze { $count }, w dzienniku
entries-of-thermometers = Odczyty termometru: { $count }, na wykresie
more-in-the-journal = jeszcze { $count } w dzienniku
column-time = Czas
column-step = Krok
column-state = Stan
column-by = Kto
column-what = Co
journal-range = Zdarzenia { $first } do { $last } dziennika. Czas: { $zone }.
label-seal = Pieczęć
seal-is-checked-by = { $command } pokazuje, czy zapis zmieniono.
doubt-unread = Zdarzenia { $event } nie da się odczytać: { $why }.
doubt-changed = Zdarzenia { $first } do { $last } nie są takie, jak je zapisano: brakuje ich albo są zmienione.
plot-no-temperature = Nie zapisano żadnej temperatury.
plot-from-to = Od { $from } do { $to }.
plot-was-right = Temperatura była właściwa (kreskowanie) od minuty { $from } do { $to }.
plot-never-right = Temperatura nigdy nie była właściwa.
plot-port-was-open = Korek kontrolny był otwarty od minuty { $from } do { $to }, zamknięty przy { $celsius }.
plot-axis = minuty od początku; { $unit }
plot-port-open = otwarty
pipe-drawn = Rurka przelewowa: właściwa temperatura { $low } do { $high }.
pipe-drawn-closed = Rurka przelewowa: właściwa temperatura { $low } do { $high }. Zamknięto przy { $celsius }.
offer-odometer = Stan licznika, z jednostką
offer-technician = Kto wykonał pracę
offer-workshop = Który warsztat
offer-fluid = Olej, jak na opakowaniu
offer-batch = Partia na opakowaniu
offer-cost = Ile kosztuje, z walutą

## The board of many bays

bay-is-quiet = Tu nie trwa żadna praca.
bay-is-not-heard = Nic nie dociera. Idź sprawdzić.
board-empty = Przez { $broker } nie dociera jeszcze żadne stanowisko.
board-broker-lost = { $broker } nie odpowiada. To, co tu stoi, jest stare.
board-keys = Pisz, aby szukać. Ctrl-C kończy.
board-sought = Szukaj: { $text }

## The plan

plan-title = Plan: { $sheet }
plan-buy = Kupić
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = Nalać
plan-fill-says = około { $amount }: { $parts }
plan-one-drain = jedno spuszczenie { $amount }
plan-drains = { $count } × spuszczenie { $amount }
plan-for-parts = { $amount } na filtr, chłodnicę i miskę
plan-the-extra = dodatek
plan-hand-in = około { $amount }, do oddania
plan-fresh = Nowy olej potem
plan-at-best = najwyżej { $percent } %
plan-runs-out = Wypłynie
plan-runs-out-says = około { $amount } przy { $celsius }, jeśli poziom był przedtem właściwy
plan-trickle = Do cienkiej strużki
plan-trickle-says = około { $seconds } s po otwarciu: wskazówka, nigdy decyzja
plan-unknown = nie da się powiedzieć
plan-hot = W gorących miejscach
plan-hot-says = { $low } do { $high }, od { $air } na zewnątrz: pokazuje pojazd albo wpisać na początku
plan-opens = Właściwa temperatura nadejdzie
plan-opens-says = { $minutes } po zimnym rozruchu przy { $air }: zwykłe auto, błąd nawet dwukrotny
plan-lasts = Pozostaje właściwa
plan-lasts-says = { $minutes }, z tą samą niepewnością
plan-minutes = { $low } do { $high } min
plan-hot-day = Gorący dzień
plan-day-second-band = Dziś liczy się zakres dla gorących miejsc. Jeśli pojazd nie pokazuje powietrza na zewnątrz, wpisz je na początku.
plan-day-below-second = Olej zaczyna blisko zakresu: właściwa temperatura przyjdzie szybko i na krótko. Zacznij chłodnym rankiem. Zakres dla gorących miejsc jeszcze się nie liczy.
plan-day-no-second = Olej zaczyna blisko zakresu: właściwa temperatura przyjdzie szybko i na krótko. Zacznij chłodnym rankiem. Dane nie mają zakresu dla gorących miejsc; producent może mieć.
plan-degree = Stopień
plan-degree-falls = { $amount } na każdy { $degree } za ciepło przy zamykaniu: za zimno zamknięty to za dużo, za ciepło to za mało
plan-degree-rises = { $amount } na każdy { $degree } za ciepło przy zamykaniu: za zimno zamknięty to za mało, za ciepło to za dużo
plan-left-out = Pominięto
plan-leaves-out-slope = jak nachylenie z danych zmienia się poza zakresem i gdzie olej jest zatrzymywany lub puszczany; rozszerzanie jest w tym nachyleniu
plan-leaves-out-thermostat = olej, który termostat zatrzymuje lub puszcza przy grzaniu: liczone jest samo rozszerzanie
plan-tilt = Przechył
plan-tilt-says = { $pitch } na 1° przodu w górę, { $roll } na 1° lewej strony w górę: trzymaj w granicach { $allowed }
plan-not-confirmed = Nikt nie potwierdził
plan-before-any-job = { $what }: zlecenie nie zacznie się przed potwierdzeniem
plan-guessed = Zgadywane
plan-guess-costs = { $what }: kosztuje { $amount } z ±
plan-guess-is-free = { $what }: nie wchodzi do ±
plan-off = Ile kosztuje odchyłka
plan-off-by = Odchyłka
plan-off-pipe = Przy rurce przelewowej
plan-off-temperature = temperatura { $by }
plan-off-nose = przód w górę { $by }
plan-off-left = lewa strona w górę { $by }
plan-still-right = jeszcze dobrze
plan-too-much = za dużo
plan-checklist = Lista
plan-at-hand = Pod ręką
plan-beware = Uwaga
plan-out-of-order = Można wpisać poza kolejnością
plan-stop-rules = Kiedy przerwać, w każdym kroku
who-either = jeden z dwóch
line-exchanges = Spuść i nalej { $count } razy. Pomiędzy przejdź pozycje przy pracującym silniku.
line-selector = { $positions }: po { $dwell } s, rund: { $rounds }
line-look = Sprawdzić: { $look }
line-looks = Sprawdź { $count } razy, raz po razie.
line-look-number = Sprawdzenie { $number }: { $look }
line-wave = Mała fala co { $seconds } s to nie nadmiar: sprawdzaj pomiędzy.
line-stand = Nie poziomo: { $how }. Zmierz, na oko się nie liczy.
stand-nose-up = przód { $degrees } w górę
stand-nose-down = przód { $degrees } w dół
stand-left-up = lewa strona { $degrees } w górę
stand-right-up = prawa strona { $degrees } w górę
look-idling = bieg jałowy
look-engine-off = silnik wyłączony
look-ready-off = READY wyłączony
look-in-position = w { $position }
look-after = po { $seconds } s
look-between = { $from } do { $to } s po zatrzymaniu
look-in-band = przy właściwej temperaturze
sign-thread = nadmiar wypływa do cienkiej strużki
sign-first-drips = najpierw sucho; kapie przed górnym końcem zakresu
sign-drips = wypływa, aż tylko kapie
sign-below-edge = olej stoi { $low } do { $high } poniżej dolnej krawędzi
sign-at-edge = olej stoi przy dolnej krawędzi
sign-chart = bagnet pokazuje, co dopuszcza tabela
sign-amounts = ilości się zgadzają
look-then-add = zamknięte, potem jeszcze { $amount }
