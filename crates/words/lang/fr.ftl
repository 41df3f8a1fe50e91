### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = Choisissez le véhicule. Puis commencez le travail.
Advice-prepare-vehicle = Mettez-le sur quatre chandelles ou un pont. À l’horizontale, bout du flexible d’extraction dehors.
Advice-shim-stands = Sortez. Puis mettez-le à l’horizontale aux chandelles, et remesurez.
Advice-park = Levier en P, frein de stationnement serré. Cales aux roues restées au sol.
Advice-read-container = Lisez le bidon à voix haute, face aux données du véhicule. Mêmes mots ?
Advice-open-fill-port = Ouvrez d’abord le bouchon de remplissage. Vidangez la boîte seulement après.
Advice-cool-before-drain = Laissez refroidir avant de vidanger la boîte. Au-dessus de 60 °C, l’huile vous brûle.
Advice-switch-ready-off = Coupez Ready, donnez la clé au collègue dessous. Le moteur peut démarrer tout seul.
Advice-drain = Vidangez la boîte, retirez aussi le tube de trop-plein. Mesurez combien, à quelle température.
Advice-drain-again = Moteur coupé, gardez fermés les deux bouchons. Puis vidangez la boîte, remplissez encore une fois d’huile neuve.
Advice-put-pipe-in = Remettez le tube de trop-plein à la main, jusqu’en butée. Trop serré, il se fend.
Advice-was-pipe-out = Peu d’huile sortie : le tube de trop-plein était-il retiré ? Alors remettez-le.
Advice-is-pipe-in = Le tube de trop-plein est-il remis ? Sans lui, le carter de boîte se vide.
Advice-fill = Remplissez d’huile neuve : la quantité sortie, plus le supplément.
Advice-close-up = Mettez les deux bouchons à la main. Enlevez le tuyau de remplissage et le bac.
Advice-put-pin-in = Mettez la goupille du refroidisseur. Le démarrage vient seulement après.
Advice-lead-exhaust = Branchez le flexible d’extraction sur l’échappement, bout dehors. Des portes ouvertes ne suffisent pas.
Advice-check-exhaust = Ralenti long : flexible d’extraction en place ? Mal de tête : sortez d’abord à l’air libre.
Advice-come-out = Sortez. Puis dites « je suis sorti ».
Advice-stay-out = Restez dehors. Le moteur démarre, le levier sélecteur bouge.
Advice-wait-for-clear = Attendez. Continuez seulement quand votre collègue dit « je suis sorti ».
Advice-start-engine = Démarrez le moteur à présent. Gardez le pied sur le frein, restez en P.
Advice-hold-brake = Gardez le pied sur le frein. Levier sélecteur en P.
Advice-cycle-selector = Gardez le pied sur le frein. Passez le levier sélecteur dans ses positions.
Advice-switch-mode-on = Activez le mode entretien, désactivez l’arrêt automatique du moteur. Dites quand c’est fait.
Advice-confirm-open = Il reste un point à régler. Réglez-le, puis confirmez-le.
Advice-stay-clear = Restez dehors. La bonne température vient plus tard.
Advice-keep-idling = Laissez au ralenti, en P. Pieds hors des pédales, ne touchez à rien.
Advice-may-stop = Le moteur s’est déjà arrêté seul à ce moment. Ne touchez à rien.
Advice-keep-idling-until-closed = Laissez au ralenti jusqu’au « fermé » du collègue dessous.
Advice-be-ready = Passez sous le véhicule. Gardez fermé le bouchon de niveau.
Advice-look-position = Gardez le pied sur le frein. Levier sélecteur en position de contrôle.
Advice-settle = Restez dehors jusqu’à ce que l’huile se stabilise. Laissez tout en l’état.
Advice-open-port = Ouvrez le bouchon de niveau maintenant, de côté. Gardez les lunettes mises.
Advice-watch-stream = Regardez de côté. Dites quand c’est un mince filet.
Advice-watch-drips = Regardez de côté. Dites quand les premières gouttes tombent.
Advice-open-port-off = Gardez le moteur coupé. Ouvrez le bouchon de niveau maintenant, de côté.
Advice-watch-off = Gardez le moteur coupé. Regardez : dites quand c’est un mince filet.
Advice-look-at-edge = Regardez où arrive l’huile. Dites « au bord », ou combien en dessous.
Advice-read-gauge = Essuyez la jauge, poussez-la en butée. Dites les millimètres.
Advice-read-again = Essuyez la jauge, relisez. Deux lectures doivent concorder à 2 mm près.
Advice-draw-out = Trop d’huile. Aspirez-en par le tube de remplissage, en mesurant.
Advice-let-some = Trop d’huile. Laissez-en couler jusqu’au bon niveau d’huile.
Advice-still-flowing = L’huile coule encore après 15 s ? Dites-le ; sinon, fermez le bouchon de niveau.
Advice-close-port = Fermez le bouchon de niveau tout de suite, à la main.
Advice-close-port-wait = Fermez le bouchon de niveau. Mauvaise température.
Advice-close-port-cool = Fermez le bouchon de niveau. Trop chaud.
Advice-close-too-much = Fermez tout de suite le bouchon ouvert. Il en est trop sorti : mauvais bouchon ?
Advice-stop-and-cool = Coupez le moteur. Laissez refroidir, puis remettez au ralenti.
Advice-stop-now = Coupez le moteur tout de suite. Levier en P.
Advice-stop-engine = Coupez le moteur. Retirez la clé, gardez-la en main.
Advice-keep-off = Gardez le moteur coupé.
Advice-keep-closed = Gardez fermé le bouchon de niveau. Le moteur s’arrête d’abord.
Advice-stay-away = Restez dehors. L’huile doit d’abord refroidir.
Advice-answer = Répondez : allez-vous bien ?
Advice-call-below = Appelez le collègue dessous. Sans réponse : coupez le moteur, allez voir.
Advice-charge-battery = Batterie faible. Coupez le moteur, sortez, puis chargez-la.
Advice-fill-first = Gardez le moteur coupé. Remplissez d’abord ce qui manque.
Advice-fill-more = Fermez le bouchon de niveau à la main. Niveau d’huile trop bas : faites l’appoint.
Advice-fill-to-edge = Moteur coupé, bouchon de niveau ouvert : remplissez jusqu’à ce que l’huile y ressorte. Mesurez.
Advice-add-amount = Fermez le bouchon de niveau à la main. Puis ajoutez la quantité des données du véhicule.
Advice-fill-here = Niveau d’huile trop bas. Faites l’appoint par cette ouverture.
Advice-hose-out = Retirez le tuyau de remplissage. Dites ce qui vient : jet, gouttes ou rien.
Advice-look-why-low = Arrêtez de remplir. Cherchez une fuite, ou un mauvais bouchon.
Advice-drain-wrong = Mauvaise huile : gardez le moteur coupé. Vidangez la boîte, remplissez avec la bonne.
Advice-read-jug = Lisez d’abord le pichet gradué : dites combien a coulé.
Advice-let-out = Trop d’huile : gardez le moteur coupé. Laissez couler le surplus, en mesurant.
Advice-soak-up = Absorbez l’huile renversée. Essuyez l’échappement une fois froid.
Advice-check-adapter = Fermez le bouchon de niveau à la main. Puis contrôlez la prise de l’adaptateur.
Advice-ask-engine = Le moteur est au ralenti, sans voyant rouge ? Alors dites-le.
Advice-say-engine = Le moteur est-il coupé ? Dites ce qu’il fait.
Advice-close-port-engine = Fermez le bouchon de niveau. Personne ne confirme le moteur au ralenti.
Advice-feel-pan = Arrêté depuis 8 h, carter de boîte froid comme l’air ? Alors confirmez.
Advice-read-inside = Qu’affiche le véhicule pour son huile de boîte ? Dites-le.
Advice-push-adapter = Laissez le moteur tel quel. Enfoncez de nouveau l’adaptateur.
Advice-check-sensor = Gardez fermé le bouchon de niveau. Mesurez le carter de boîte sur ruban mat.
Advice-tighten = Laissez en place les deux bouchons. Moteur coupé d’abord, puis serrez-les.
Advice-take-pin-out = Retirez la goupille du refroidisseur, moteur coupé. Sinon la boîte surchauffe.
Advice-wipe-dry = Essuyez à sec avec un chiffon. Sortez, dites « je suis sorti ».
Advice-look-for-leaks = Après 5 min de ralenti, cherchez des gouttes.
Advice-look-for-drops = Cherchez des gouttes autour des bouchons.
Advice-mend-leak = Moteur coupé. Réparez d’abord la fuite.
Advice-refit = Remontez les caches et la roue. Serrez les écrous au couple, une fois au sol.
Advice-test-drive = Descendez le véhicule. Roulez doucement sur un court trajet, puis cherchez les fuites.
Advice-not-driven = Le véhicule ne doit pas rouler. Il manque de l’huile.
Advice-finish = Terminez le rapport.
Advice-recheck = Recontrôlez le niveau d’huile au jour indiqué dans le rapport, à froid.
Advice-set-again = Le niveau d’huile n’est pas réglé. Voyez le rapport, puis recontrôlez.
Advice-wait = Attendez à l’intérieur. Ne touchez à rien.
Advice-fresh-air = Sortez tous à l’air libre. Appelez les secours.
Advice-get-out = Sortez tous. Appelez les pompiers.
Advice-engine-off-caught = Coupez le moteur tout de suite, P, pied sur le frein. Appelez les secours.
Advice-hold-still = Restez immobile : véhicule laissé en place, personne ne tire. Les secours arrivent.
Advice-cool-burn = Passez la brûlure sous l’eau fraîche courante, 20 min. Pas de glace.
Advice-help-burn = Aidez-le à sortir. Fermez le bouchon de niveau par le côté, puis coupez le moteur.

## Caution

Caution-maker-first = Suivez le constructeur, les règles locales et professionnelles là où elles diffèrent.
Caution-four-stands = Quatre chandelles, ou un pont sur ses verrous. Un cric seul tue.
Caution-hot-fluid = Mettez gants, manches longues, lunettes. Huile, carter de boîte et échappement sont brûlants.
Caution-running-engine = Moteur en marche. Gardez cheveux et manches loin des courroies, du ventilateur, des arbres.
Caution-brake-held = Restez dehors, pas dessous. Pied sur le frein, roues en l’air ou calées.
Caution-ventilation = Les gaz d’échappement tuent. Flexible d’extraction branché, bout dehors : des portes ouvertes ne suffisent pas.
Caution-waste-oil = Recueillez l’huile dans un récipient à part. Remettez-la comme huile usagée.
Caution-overheating = Trop chaud. Coupez vite le moteur, levier en P, restez à l’écart jusqu’au refroidissement.
Caution-low-voltage = Batterie faible : éteignez feux et ventilation. Chargez-la seulement moteur coupé, personne dessous.
Caution-long-idling = Ralenti long. Flexible d’extraction toujours en place, bout dehors ? Mal de tête chez quelqu’un : sortez d’abord à l’air libre.
Caution-lost-while-open = Sans mesure, bouchon de niveau ouvert. Fermez-le à la main ; laissez le moteur au ralenti, puis contrôlez la prise de l’adaptateur.
Caution-fill-port-first = Ouvrez d’abord le bouchon de remplissage. Vidangé et bouchon bloqué, le véhicule est immobilisé.

## Precondition

Precondition-on-stands = Sur quatre chandelles ou un pont, sol dur et plat, secoué, stable.
    .short = chandelles
Precondition-vehicle-level = Le véhicule est à l’horizontale.
    .short = véhicule à l’horizontale
Precondition-exhaust-outside = Flexible d’extraction branché, bout dehors ; ou véhicule en plein air.
    .short = flexible d’extraction
Precondition-brake-held = Le frein reste enfoncé pendant que le levier sélecteur bouge.
    .short = pied sur le frein
Precondition-cooler-bypass = La goupille tient ouvert le by-pass du refroidisseur.
    .short = goupille du refroidisseur
Precondition-selector-cycled = Le levier sélecteur a parcouru ses positions selon les données du véhicule.
    .short = levier sélecteur
Precondition-filled = L’huile neuve est dans la boîte, avec le supplément.
    .short = remplissage
Precondition-started-cold = Départ à froid : liquide de refroidissement et air concordaient, ou 8 heures d’arrêt.
    .short = départ à froid
Precondition-engine-running = Le moteur est en marche.
    .short = moteur
Precondition-engine-idling = Le moteur est au ralenti, dans la plage des données du véhicule.
    .short = ralenti
Precondition-engine-off = Le moteur est coupé, comme ce contrôle le demande.
    .short = moteur coupé
Precondition-settled = L’huile s’est stabilisée aussi longtemps que le disent les données.
    .short = stabilisation
Precondition-in-position = Le levier sélecteur est dans la position voulue pour le contrôle.
    .short = position de contrôle
Precondition-standing-still = Le véhicule est immobile.
    .short = véhicule immobile
Precondition-parked = Levier en P, frein de stationnement serré, qui tient. Cales aux roues restées au sol.
    .short = frein de stationnement
Precondition-fill-port-open = Le bouchon de remplissage a été ouvert : il bouge.
    .short = bouchon de remplissage
Precondition-fluid-right = Le bidon a été lu à voix haute face aux données : identique.
    .short = bidon lu
Precondition-pipe-in = Le tube de trop-plein est remis à la main, en butée. Puis son petit couple.
    .short = tube de trop-plein
Precondition-closed-up = Bouchons de niveau et de remplissage mis à la main ; bac et tuyau enlevés.
    .short = bouchons mis, bac enlevé
Precondition-clear = Le collègue dessous est sorti, outils aussi, et l’a dit.
    .short = collègue sorti
Precondition-bypass-out = La goupille du refroidisseur est retirée.
    .short = goupille retirée
Precondition-no-leak = Moteur au ralenti, dessous sec : aucune fuite vue.
    .short = contrôle de fuite
Precondition-refitted = Caches et roue remontés, écrous serrés au sol.
    .short = caches, roue
Precondition-mode-on = Mode entretien activé, arrêt automatique du moteur désactivé.
    .short = mode entretien
Precondition-ready-off = Ready coupé, clé chez le collègue dessous.
    .short = Ready coupé
Precondition-dry = L’huile renversée est absorbée, l’échappement essuyé.
    .short = huile absorbée
Precondition-all-safe = Tout le monde est hors de danger.
    .short = tous hors de danger

## Reason

Reason-in-band = L’huile de boîte est dans la plage, incertitude comprise.
Reason-no-band = Ce contrôle ne demande aucune température.
Reason-below-band = L’huile de boîte est encore sous la plage.
    .remedy = Laissez le moteur au ralenti ; la prévision dit combien de temps.
Reason-above-band = L’huile de boîte est au-dessus de la plage.
    .remedy = Gardez fermé le bouchon de niveau, coupez le moteur et laissez refroidir.
Reason-guard-band = Si près du bord que l’huile est peut-être hors plage.
    .remedy = Attendez ; ce sera bientôt clair.
Reason-hysteresis = À peine dans la plage, ou encore en mélange après un démarrage.
    .remedy = Attendez ; ce sera bientôt clair.
Reason-too-uncertain = La température n’est pas assez sûre pour cette plage.
    .remedy = Donnez une meilleure mesure : un identifiant d’huile, ou un thermomètre sur ruban ou peinture mate.
Reason-no-reading = Il n’y a pas encore de mesure de température.
    .remedy = Contact mis, la première vient en quelques secondes.
Reason-stale = La dernière mesure de température est trop ancienne.
    .remedy = Elle revient d’elle-même ; sinon, contrôlez la prise de l’adaptateur.
Reason-link-lost = Il n’y a pas de liaison avec le véhicule.
    .remedy = Contrôlez la prise de l’adaptateur et le contact ; elle revient d’elle-même.
Reason-frozen = La température n’a pas bougé alors qu’elle devrait : le capteur est peut-être bloqué.
    .remedy = Comparez avec un thermomètre sur le carter de boîte ; s’ils diffèrent, capteur ou câblage est en cause.
Reason-stepped-away = La température a sauté plus que l’huile ne peut chauffer ou refroidir.
    .remedy = Contrôlez le connecteur du capteur ; attendez que les mesures concordent de nouveau.
Reason-not-alive = La température n’a pas encore bougé. Le capteur n’est donc pas vérifié.
    .remedy = Comparez avec un thermomètre sur le carter de boîte ; s’ils diffèrent, capteur ou câblage est en cause.
Reason-copies-coolant = La mesure de l’huile égale toujours celle du liquide de refroidissement : le calculateur la remplace peut-être.
    .remedy = Comparez d’abord avec un thermomètre sur le carter de boîte.
Reason-disagrees = La température contredit liquide de refroidissement, air, démarrage ou thermomètre.
    .remedy = Mesurez le carter de boîte sur ruban ou peinture mate au thermomètre. Contrôlez l’identifiant des données et la surface saisie.
Reason-units-disagree = Des calculateurs donnent des températures différentes. Personne n’a dit lequel est juste.
    .remedy = Trouvez au thermomètre lequel est juste. Nommez-le dans les données du véhicule : `check.from`.
Reason-other-vehicle = L’adaptateur est branché sur un autre véhicule que celui du travail.
    .remedy = Rebranchez l’adaptateur sur le véhicule de ce travail.
Reason-sensor-code = Un code défaut du capteur de température d’huile est enregistré.
    .remedy = Réparez d’abord le capteur ou son circuit ; cette température n’est pas fiable.
Reason-overheat-code = Un code défaut de surchauffe de l’huile est enregistré.
    .remedy = Trouvez pourquoi l’huile a surchauffé avant de régler un niveau d’huile.
Reason-implausible = La mesure est hors de ce que l’huile peut avoir.
    .remedy = Contrôlez le connecteur du capteur ; attendez que les mesures concordent de nouveau.
Reason-precondition-open = Un point nécessaire avant le réglage du niveau d’huile n’est pas confirmé.
    .remedy = Voyez la liste de ce qui reste à faire.
Reason-no-job = Aucun travail n’est commencé.

## Trouble

Trouble-port-gone = La liaison avec l’adaptateur est coupée.
    .remedy = Contrôlez la prise et le câble de l’adaptateur ; elle revient d’elle-même.
Trouble-adapter-silent = L’adaptateur ne répond pas.
    .remedy = Contrôlez la prise de l’adaptateur ; il revient de lui-même.
Trouble-adapter-mute = L’adaptateur reste muet, bien que son port ait été rouvert.
    .remedy = Retirez l’adaptateur et rebranchez-le ; si rien ne change, prenez-en un autre.
Trouble-out-of-step = L’adaptateur répond, mais pas à ce qui est demandé.
    .remedy = Retirez l’adaptateur et rebranchez-le ; si rien ne change, prenez-en un autre.
Trouble-adapter-fault = L’adaptateur signale un défaut qui vient de lui.
    .remedy = Retirez l’adaptateur et rebranchez-le ; si rien ne change, prenez-en un autre.
Trouble-restarting = L’adaptateur a perdu ses réglages et se remet en route.
    .remedy = Il revient de lui-même ; si cela se répète, contrôlez sa prise.
Trouble-modem = Un modem répond sur ce port.
    .remedy = Indiquez un autre appareil : ce port n’est pas celui de l’adaptateur.
Trouble-loop = Seul l’envoi revient : un câble nu, ou un adaptateur sans alimentation.
    .remedy = Branchez l’adaptateur sur le véhicule : c’est lui qui l’alimente.
Trouble-noise = Il ne vient que du bruit de ce port.
    .remedy = Indiquez le débit de l’adaptateur avec son appareil, ou un autre appareil.
Trouble-talk = Ce qui répond n’accepte aucun réglage d’adaptateur de diagnostic.
    .remedy = Retirez l’adaptateur et rebranchez-le ; si rien ne change, prenez-en un autre.
Trouble-not-understood = L’adaptateur ne comprend pas ce qu’il doit demander au véhicule.
    .remedy = Prenez un autre adaptateur.
Trouble-senders-unknown = Plusieurs calculateurs répondent. L’adaptateur ne dit pas lequel a envoyé quoi.
    .remedy = Prenez un autre adaptateur, qui nomme les émetteurs.
Trouble-sender-unknown = L’adaptateur ne dit pas quel calculateur répond.
    .remedy = Prenez un autre adaptateur, qui nomme les émetteurs.
Trouble-protocol-unknown = Le véhicule répond, mais l’adaptateur ne dit pas sur quel bus.
    .remedy = Prenez un autre adaptateur.
Trouble-unreadable = Le véhicule répond, mais le texte de l’adaptateur est illisible.
    .remedy = La demande se répète seule ; si cela dure, prenez un autre adaptateur.
Trouble-late-reply = L’adaptateur ne termine pas ses réponses à temps.
    .remedy = La demande se répète seule ; si cela dure, prenez un autre adaptateur.
Trouble-interrupted = L’adaptateur interrompt ce qui lui est demandé.
    .remedy = La demande se répète seule ; si cela dure, prenez un autre adaptateur.
Trouble-spoilt = Les réponses sont abîmées en route.
    .remedy = Contrôlez prise et câble ; la demande se répète seule. Si cela dure, prenez un autre adaptateur.
Trouble-other-request = Les réponses vont avec d’autres demandes.
    .remedy = La demande se répète seule ; si cela dure, prenez un autre adaptateur.
Trouble-repeats = L’adaptateur ne fait que répéter d’anciennes réponses.
    .remedy = Retirez l’adaptateur et rebranchez-le ; si rien ne change, prenez-en un autre.
Trouble-unsteady = La valeur change d’une réponse à l’autre.
    .remedy = Contrôlez prise et câble ; la demande se répète seule. Si cela dure, prenez un autre adaptateur.
Trouble-vehicle-silent = Le véhicule ne répond pas.
    .remedy = Contrôlez le contact, et la bonne tenue de l’adaptateur dans sa prise.
Trouble-search-endless = La recherche du véhicule n’en finit pas.
    .remedy = Elle reprend seule ; contrôlez la bonne tenue de l’adaptateur dans sa prise.
Trouble-bus-start = Le bus du véhicule ne démarre pas.
    .remedy = Contrôlez le contact, et la bonne tenue de l’adaptateur dans sa prise.
Trouble-bus-trouble = Le bus du véhicule perturbe les envois.
    .remedy = Contrôlez la bonne tenue de l’adaptateur. Rien d’autre sur cette prise.
Trouble-only-refusals = Le véhicule refuse dès la première demande.
    .remedy = Certains véhicules verrouillent leur prise ; il reste alors le thermomètre.
Trouble-unit-silent = Aucun calculateur ne répond à cette demande.
    .remedy = Le véhicule lui-même répond : contrôlez en-tête et identifiant dans les données.
Trouble-unit-busy = Le calculateur demande plus de temps et ne répond pas.
    .remedy = Si cela dure, contrôlez l’identifiant dans les données du véhicule.
Trouble-refused-unknown = Le calculateur refuse : il ne connaît pas cet identifiant.
    .remedy = Contrôlez identifiant et en-tête dans les données du véhicule.
Trouble-refused-locked = Le calculateur refuse : il garde cette valeur verrouillée.
    .remedy = Prenez des données avec liquide de refroidissement ou thermomètre.
Trouble-refused-now = Le calculateur refuse pour le moment : les conditions ne sont pas réunies.
    .remedy = Continuez ; il répondra peut-être à l’étape moteur en marche.
Trouble-refused = Le calculateur refuse cette demande.
    .remedy = Contrôlez identifiant et en-tête dans les données du véhicule.
Trouble-wrong-sender = Un autre calculateur répond que celui interrogé.
    .remedy = Contrôlez l’en-tête dans les données du véhicule.
Trouble-not-addressable = Le calculateur des données ne peut être appelé sur ce bus.
    .remedy = Contrôlez l’en-tête dans les données du véhicule.
Trouble-undecodable = La réponse n’est pas faite comme le disent les données.
    .remedy = Contrôlez octet et longueur de l’identifiant dans les données du véhicule.

## Outcome

Outcome-set = Le niveau d’huile est correct.
Outcome-set-low = Niveau d’huile réglé, mais plus bas que permis par les données.
Outcome-set-high = Niveau d’huile réglé, mais plus haut que permis par les données.
Outcome-not-set = Le niveau d’huile n’est pas réglé.
Outcome-set-unsure = Le niveau d’huile est probablement correct.
Outcome-checked = Le niveau d’huile était correct.

## Drivable

Drivable-yes = Le véhicule peut rouler.
Drivable-workshop-only = Le véhicule peut bouger seulement dans l’atelier.
Drivable-no = Le véhicule ne doit pas rouler ; déplacez-le seulement roues motrices levées.

## Meaning

Meaning-other-cause = Le niveau d’huile était correct : le symptôme a une autre cause. Changer l’huile n’est pas un remède. Lisez les codes.
Meaning-driven-low = Le véhicule a roulé avec trop peu d’huile. Demandez s’il patine, lisez les codes, prévenez le client.
Meaning-ask-history = Le niveau d’huile était trop bas, sans fuite visible. Demandez qui y a travaillé, et quand.
Meaning-filled-wrong = Il y avait trop d’huile. Remplie à froid, ou une autre huile dedans ? Demandez.
Meaning-worn = Noire, brûlée ou avec du métal : l’intérieur est usé. Le client décide.
Meaning-water-in = Laiteuse : il y a de l’eau ou du liquide de refroidissement dedans. Cherchez par où il entre.

## Question

Question-symptoms = Pourquoi le véhicule est-il ici ?
Question-leaks = Regardez dessous : y a-t-il une fuite ?
Question-leak-place = Où est la fuite ?
Question-fluid = Les premières gouttes : comment est l’huile ?

## FindNext

FindNext-key-on = Mettez le contact. Laissez le moteur coupé et froid.
FindNext-key-off = Coupez le contact dix minutes. Puis mettez-le, moteur arrêté.
FindNext-wait = Laissez le contact mis et le moteur coupé.
FindNext-charge-battery = Chargez la batterie. La recherche reprend seule.
FindNext-stop-engine = Coupez le moteur. La recherche le demande coupé.
FindNext-start-engine = Sortez tous de dessous, bout du flexible d’extraction dehors. Puis démarrez le moteur, en P.
FindNext-warm = Laissez au ralenti et chauffer.
FindNext-spot = Sur quatre chandelles seulement, loin des arbres : mesurez le carter de boîte. Saisissez la mesure.
FindNext-cold-soak = Laissez reposer le véhicule une nuit, puis recommencez.
FindNext-confirm = Affiche-t-il la même chose que le thermomètre ? Alors confirmez-le.
FindNext-by-thermometer = Réglez le niveau d’huile au thermomètre.
FindNext-look-at-link = Contrôlez l’adaptateur, puis relancez la recherche.
FindNext-nothing = Plus rien à faire ici.

## EngineWord

EngineWord-idling = Moteur au ralenti.
EngineWord-stopped = Moteur coupé.

## Surface

Surface-tape = Ruban mat sur carter de boîte en métal.
Surface-matt-paint = Peinture mate sur carter de boîte en métal.
Surface-plastic = Un carter de boîte en plastique.
Surface-bare-metal = Métal nu : refusé à l’infrarouge, il montre ce qui l’entoure.
Surface-contact = Une sonde de contact sur carter de boîte en métal.
Surface-stream = Une sonde dans l’huile même.
Surface-air = Pas de surface : l’air sous le véhicule.

## Narrowing

Narrowing-spot-on-tape = Un thermomètre sur ruban ou peinture mate du carter de boîte.
Narrowing-air-under-vehicle = La température de l’air sous le véhicule.

## Symptom

Symptom-slips = La boîte patine en prise.
Symptom-flares = Le moteur s’emballe entre deux rapports.
Symptom-late = La boîte enclenche tard.
Symptom-hard = La boîte enclenche avec un choc.
Symptom-whine = La boîte siffle.
Symptom-shudder = Le véhicule broute.
Symptom-lamp = Un voyant s’est allumé.
Symptom-leak = De l’huile a été vue dessous.
Symptom-worked-on = Quelqu’un y a travaillé récemment.
Symptom-none = Rien n’a été remarqué.

## Leak

Leak-dry = Sec.
Leak-damp = Humide : aucune goutte ne pend.
Leak-drops = Des gouttes se forment.
Leak-runs = L’huile coule.

## LeakPlace

LeakPlace-pan = Au carter de boîte.
LeakPlace-pipe-or-plug = Au tube de trop-plein ou à un bouchon.
LeakPlace-cooler-line = À une conduite du refroidisseur.
LeakPlace-axle-seal = À un joint d’arbre de roue.
LeakPlace-converter-housing = À la cloche du convertisseur.
LeakPlace-not-seen = L’endroit ne se voit pas.

## FluidLook

FluidLook-red = Rouge, ou comme neuve.
FluidLook-brown = Brune.
FluidLook-black = Noire.
FluidLook-burnt = Elle sent le brûlé.
FluidLook-milky = Laiteuse.
FluidLook-metal = Du métal dedans.

## Alarm

Alarm-air = Air vicié : vertige, mal de tête.
Alarm-burn = Quelqu’un est brûlé.
Alarm-caught = Quelqu’un est coincé.
Alarm-fire = Au feu.

## Part

Part-filter = L’ancien filtre, imbibé.
Part-cooler = Le refroidisseur et ses conduites, vidés.
Part-pan = Le carter de boîte, déposé : ce que la vidange y a laissé.
Part-converter = Le convertisseur, vidé.

## Refusal

Refusal-no-job = Aucun travail n’est commencé : d’abord `tell start`.
Refusal-job-running = Un travail est en cours : terminez-le d’abord avec `tell done` ou `tell abort`.
Refusal-not-yet = Cela vient plus tard dans le travail ; une étape d’avant reste à faire.
Refusal-already-done = C’est déjà saisi ; `tell undo` l’annule.
Refusal-not-go = L’état n’est pas `go`, le niveau d’huile ne peut donc pas être correct à ce moment.
Refusal-not-the-sign = Ce véhicule montre son niveau d’huile par un autre signe : saisissez ce que l’écran demande.
Refusal-port-closed = Le bouchon de niveau n’est pas saisi comme ouvert : d’abord `tell flowing`.
Refusal-port-open = Le bouchon de niveau est encore ouvert : fermez-le et saisissez d’abord `tell closed`.
Refusal-shown-by-vehicle = Le véhicule le montre lui-même ; une personne ne peut pas le confirmer.
Refusal-not-needed = Les données du véhicule ne le demandent pas.
Refusal-not-level = Le véhicule n’est pas assez à l’horizontale : le niveau d’huile serait faux de plus que les données ne l’admettent.
Refusal-impossible-amount = Cette quantité est impossible : plus que la boîte ne contient, ou rien.
Refusal-more-out-than-in = Il serait sorti plus d’huile qu’il n’y en a jamais eu ; mesurez de nouveau.
Refusal-useless-surface = Le métal nu reflète ce qui l’entoure : collez du ruban mat et mesurez dessus.
Refusal-impossible-value = Aucun véhicule en atelier n’a cette valeur ; mesurez de nouveau.
Refusal-amount-unknown = Les données ne disent pas combien cela contient : mesurez et saisissez la quantité.
Refusal-base-unknown = Les données ne disent ni empattement ni voie : saisissez-les aussi.
Refusal-corner-misread = Les quatre coins ne sont pas dans un même plan : un coin est mal lu. Mesurez de nouveau.
Refusal-wrong-position = Une autre position du levier sélecteur vient d’abord ; l’écran dit laquelle.
Refusal-too-early = Le levier sélecteur n’est pas resté assez longtemps dans la position d’avant ; l’écran dit combien.
Refusal-no-such-job = Le journal ne contient aucun travail de ce numéro.
Refusal-not-a-hash = Ce n’est pas un SHA-256 : 64 chiffres hexadécimaux en minuscules.
Refusal-nothing-to-undo = Il n’y a rien à annuler.
Refusal-too-long = Le texte est trop long : 200 caractères au plus.
Refusal-hidden-character = Le texte contient un caractère invisible qui change ce qui se voit.
Refusal-no-such-event = Aucun événement de ce numéro n’a encore eu lieu ; le suivant sera envoyé.
Refusal-too-many = Ce travail contient autant de remarques, de photos et de noms du véhicule que permis : notez le reste ailleurs.
Refusal-too-fast = C’est plus qu’une personne n’écrit en si peu de temps : attendez quelques secondes et saisissez de nouveau.
Refusal-not-understood = Ce n’est pas une demande de l’interface.
Refusal-journal-full = Le journal ne peut pas être écrit, rien n’est donc garanti. Libérez de la place sur le disque.
Refusal-band-decided = La plage qui compte a été fixée au début du travail. Si elle est fausse, terminez le travail, saisissez la température de l’air, et recommencez.
Refusal-needs-adapter = Ces données suivent le liquide de refroidissement tel que le véhicule le donne ; sans adaptateur, personne ne le lit. Choisissez des données avec le signal `spot` ou `fluid`.
Refusal-no-such-sheet = Le programme n’a pas reçu de données de ce nom ; `serve --sheets FOLDER` en indique un dossier.
Refusal-sheet-unconfirmed = Personne n’a confirmé ces données ici : `standpipe sheet check FILE` dit quoi, `standpipe sheet confirm FILE` les confirme.
Refusal-no-sheet = Aucune donnée de véhicule n’a été fournie, aucun niveau d’huile ne peut donc être réglé : recommencez avec `--sheet FILE`.
Refusal-not-searching = Aucune recherche d’identifiant n’est en cours : `standpipe find` en lance une.
Refusal-no-such-candidate = Cet identifiant n’est pas celui qui est en tête ; l’écran dit lequel.
Refusal-not-agreed = Aucun thermomètre ne concorde encore : mesurez le carter de boîte et saisissez d’abord `spot`.
Refusal-not-settled = Plusieurs identifiants restent possibles : laissez chauffer encore.
Refusal-ended = Le travail est terminé ; `tell start` en commence un nouveau.

## Shortfall

Shortfall-nothing-ran-out = Rien n’a coulé à `go`, le niveau d’huile est donc trop bas. Faites l’appoint, puis recontrôlez à la bonne température.
Shortfall-stays-dry = Rien n’a coulé à `go`, bien qu’il ait été rempli plus qu’il ne peut manquer. Arrêtez de remplir : cherchez une fuite, un autre bouchon, l’assiette du véhicule.
Shortfall-gush-only = Seule la première giclée est sortie : le niveau d’huile est trop bas. Remplissez ce qui manque et le supplément, puis recontrôlez.
Shortfall-ran-out-too-much = Il est sorti bien plus que le surplus : mauvais bouchon, ou tube de trop-plein desserré ? Remplissez ce qui manque, puis recontrôlez.
Shortfall-amount-off = La quantité dedans n’est pas celle indiquée, ou l’ancienne huile n’est pas toute sortie. Vidangez entièrement la boîte et remplissez la quantité indiquée.
Shortfall-gauge-low = La jauge indique moins que le tableau : le niveau d’huile est trop bas. Remplissez ce qui manque d’après la lecture, puis relisez.
Shortfall-gauge-high = La jauge indique plus que le tableau : trop d’huile. Aspirez-en, en mesurant, puis relisez.
Shortfall-not-read-twice = Aucune paire de lectures de la jauge dans la plage ne concorde à 2 mm près. Essuyez-la, poussez-la en butée, relisez.
Shortfall-not-looked-again = Personne n’a recontrôlé le niveau d’huile après le trajet. Remettez le véhicule à l’horizontale et recontrôlez.
Shortfall-not-opened = Le bouchon de niveau n’a pas été ouvert pendant `go`. Attendez la prochaine bonne température et réglez alors le niveau d’huile.
Shortfall-opened-before-go = Le bouchon de niveau était ouvert avant `go`. L’huile sortie alors manque au supplément ; réglez de nouveau le niveau d’huile à la bonne température.
Shortfall-no-trickle = Le jet n’était pas encore un mince filet à la fermeture du bouchon de niveau : trop d’huile. Rouvrez à la bonne température et laissez couler.
Shortfall-too-hot-before-trickle = L’huile est devenue trop chaude avant le mince filet. Laissez refroidir, remplissez la quantité indiquée, et réglez de nouveau le niveau d’huile.
Shortfall-closed-late = Le bouchon de niveau a été fermé seulement une fois l’huile trop chaude : le niveau d’huile est faux. Laissez refroidir, et réglez de nouveau le niveau d’huile.
Shortfall-closed-outside-go = L’état n’était pas `go` à la fermeture du bouchon de niveau. Réglez de nouveau le niveau d’huile à la bonne température.
Shortfall-precondition-open = Un point n’a jamais été confirmé : voyez ce qui reste à faire. Réglez-le et réglez de nouveau le niveau d’huile.
Shortfall-not-level = Le véhicule n’était pas à l’horizontale. Mettez-le à l’horizontale et réglez de nouveau le niveau d’huile.
Shortfall-started-warm = Le véhicule était chaud au début du travail. Laissez refroidir jusqu’à ce que liquide de refroidissement et air concordent, puis recommencez.
Shortfall-sensor-untrusted = La température n’était pas fiable au moment décisif. Comparez avec un thermomètre sur le carter de boîte : pas encore connu lequel est faux.
Shortfall-link-lost-while-open = L’adaptateur a été perdu, bouchon de niveau ouvert. Réglez de nouveau le niveau d’huile avec une liaison stable.
Shortfall-balance-open = Ce qui a coulé ne va pas avec ce qui a été rempli. Trop bas avant, mal vidangé, ou une fuite ? Recontrôlez bientôt.
Shortfall-unmeasured = Non mesuré : vidangé, rempli ou coulé. Les quantités ne peuvent pas contrôler le niveau d’huile.
Shortfall-too-hot = L’huile était au-dessus de la plage. Coupez le moteur, laissez refroidir, et recommencez véhicule froid.
Shortfall-thin-evidence = Saisi à la main : deux mesures dans la plage, la dernière 2 min au plus avant la fermeture, une assiette mesurée et un jet au-delà de 15 s n’étaient pas tous là.
Shortfall-leak-seen = Une fuite a été saisie, et personne n’a regardé depuis. Réparez-la d’abord.
Shortfall-aborted = Le travail a été terminé à la main.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Sortez. Puis { $shims }, et remesurez.
shims-both-rear = { $depth } sous les deux chandelles arrière
shims-both-front = { $depth } sous les deux chandelles avant
shims-both-left = { $depth } sous les deux chandelles gauches
shims-both-right = { $depth } sous les deux chandelles droites
shim-front-left = { $depth } avant gauche
shim-front-right = { $depth } avant droite
shim-rear-left = { $depth } arrière gauche
shim-rear-right = { $depth } arrière droite
shims-each = { $parts } sous les chandelles
fill-amount = Remplissez { $amount } d’huile neuve : la quantité sortie, plus le supplément.
fill-first-amount = Gardez le moteur coupé. Remplissez d’abord { $amount }.
fill-more-through-the-tube = Niveau d’huile trop bas : ajoutez { $amount } par le tube de remplissage.
fill-more-amount = Fermez le bouchon de niveau à la main. Niveau d’huile trop bas : ajoutez { $amount }.
draw-out-amount = Trop d’huile : aspirez { $amount } par le tube de remplissage, en mesurant.
add-that-amount = Fermez le bouchon de niveau à la main. Puis ajoutez { $amount }.
fill-here-amount = Niveau d’huile trop bas : ajoutez { $amount } par cette ouverture.
let-out-amount = Trop d’huile : gardez le moteur coupé. Laissez couler { $amount }, en mesurant.
not-driven-amount = Le véhicule ne doit pas rouler. Il manque { $amount }.
open-level-hole = Ouvrez le trou de niveau maintenant, de côté. Gardez les lunettes mises.
watch-until-it-drips = Regardez de côté. Dites quand il n’y a plus que des gouttes.
be-ready-at-the-hole = Passez sous le véhicule. Gardez fermé le trou de niveau.
close-hole-not-right = Fermez le trou de niveau. Mauvaise température.
close-hole-too-hot = Fermez le trou de niveau. Trop chaud.
pipe-out-plug-in = Retirez le tube de trop-plein, mettez aussitôt le bouchon, à la main.
drain-and-measure = Vidangez la boîte. Mesurez combien, à quelle température.
fill-that-of-the-data = Remplissez la quantité des données du véhicule.
close-up-cap-on = Bouchon de vidange à la main, capuchon sur le tube de remplissage. Enlevez tuyau de remplissage et bac.
cap-on-check-adapter = Laissez le capuchon en place. Contrôlez la prise de l’adaptateur.
gauge-and-cloth-ready = Préparez jauge et chiffon. Laissez le capuchon en place.
fill-more-tube = Niveau d’huile trop bas : faites l’appoint par le tube de remplissage.
cap-locked-tighten = Capuchon sur le tube de remplissage, verrouillé. Moteur coupé, puis serrez le bouchon de vidange.
close-up-plugs = Mettez les bouchons à la main. Enlevez le tuyau de remplissage et le bac.

## The result

level-low-by = Le niveau d’huile est réglé, trop bas de { $amount }.
level-high-by = Le niveau d’huile est réglé, trop haut de { $amount }.
known-to-within = Connu à ±{ $amount }.
known-to = Connu à { $amount } près.
was-low-by-more = Il manquait plus de { $amount }.
was-right-within = Il était correct, connu à ±{ $amount }.
was-low-by = Il manquait environ { $amount }, ±{ $within }.
was-high-by = Il y avait environ { $amount } de trop, ±{ $within }.
less-than-before = { $amount } de moins dedans qu’avant.
more-than-before = { $amount } de plus dedans qu’avant.
as-much-as-before = Autant dedans qu’avant.
mend-leak-first = Réparez d’abord la fuite. Puis réglez de nouveau le niveau d’huile.
find-why-it-stays-low = Trouvez pourquoi l’huile manque toujours avant de rouler. Puis réglez de nouveau le niveau d’huile.
recheck-on-the-day = Recontrôlez le niveau d’huile au jour indiqué dans le rapport, à froid.
fill-then-open-again = Remplissez { $amount }, puis rouvrez le bouchon de niveau à la bonne température. Laissez venir le mince filet.
open-again-let-run = Rouvrez le bouchon de niveau à la bonne température, véhicule à l’horizontale. Laissez venir le mince filet.
put-right-and-fill = Réglez les points nommés plus bas, remplissez { $amount }. Puis réglez de nouveau le niveau d’huile.
put-right-and-set-again = Réglez les points nommés plus bas. Puis réglez de nouveau le niveau d’huile.

## What comes next: at most eight words

next-stands-level-hose = Chandelles, à l’horizontale, flexible d’extraction.
next-drain-fill-port-first = Vidange de la boîte, bouchon de remplissage d’abord.
next-measure-how-it-stands = Mesurez l’assiette du véhicule.
next-read-the-container = Lisez le bidon.
next-drain = Vidangez la boîte.
next-pipe-back-in = Remettez le tube de trop-plein, à la main.
next-fill-and-circulate-again = Remplissez encore, puis faites circuler encore.
next-fill = Remplissez : la quantité sortie, plus le supplément.
next-close-up-come-out = Mettez les deux bouchons, enlevez le bac, sortez.
next-come-out-engine-starts = Sortez. Puis le moteur démarre.
next-brake-and-selector = Pied sur le frein, levier dans ses positions.
next-stay-out-until-near = Restez dehors jusqu’à l’approche de la bonne température.
next-go-below-when-near = Passez dessous à l’approche de la bonne température.
next-open-at-the-word = Attendez « maintenant » pour ouvrir le bouchon de niveau.
next-read-once-more = Essuyez la jauge, et relisez une fois.
next-thin-thread-close = Mince filet : fermez à la main.
next-engine-off-jug-plugs = Moteur coupé, lisez le pichet, serrez les bouchons.
next-open-only-when-right = Gardez fermé jusqu’à la bonne température.
next-let-it-cool = Laissez refroidir ; la bonne température revient.
next-right-plug-pipe-in = Moteur coupé, lisez le pichet. Bon bouchon, tube de trop-plein en place ?
next-look-again = Recontrôlez à la bonne température.
next-wipe-dry-look = Essuyez à sec, sortez, cherchez les fuites.
next-engine-on-look-for-drops = Moteur remis en marche, cherchez des gouttes.
next-lower-and-drive = Sortez. Puis véhicule descendu, essai sur route.
next-drive-a-short-way = Descendez le véhicule, roulez sur un court trajet.
next-finish = Terminez le rapport.
next-check-again = Recontrôlez au jour du rapport, à froid.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Fermez le bouchon de niveau s’il est ouvert.
leave-the-engine = Laissez le moteur tel quel.
check-adapter-plug = Contrôlez la prise de l’adaptateur.
check-which-device = Contrôlez quel appareil est indiqué.
use-another-adapter = Prenez un autre adaptateur.
check-ignition-and-plug = Contrôlez le contact et la prise de l’adaptateur.
wait-until-it-answers = Attendez la réponse.
check-the-sheet = Contrôlez les données du véhicule.
none-yet = { $signal } : à venir
vehicle-silent = véhicule muet
adapter-silent = adaptateur muet
adapter-gone = adaptateur perdu
no-adapter = sans adaptateur
adapter-in-trouble = adaptateur gêné
signal-refused = { $signal } : refus
signal-missing = { $signal } : rien
name-reading = mesure
name-fluid = huile de boîte
name-coolant = liq. de refroid.
name-spot = thermomètre
name-display = affichage
name-lamp = voyant

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } tour, { $dwell } s dans chaque position
   *[other] { $rounds } tours, { $dwell } s dans chaque position
}
move-on-round = position suivante, tour { $round } sur { $rounds }
seconds-more-round = encore { $seconds } s, tour { $round } sur { $rounds }
brake-begin-in = Pied sur le frein. Commencez en { $position }.
brake-stay-in = Pied sur le frein. Restez en { $position }.
brake-back-to = Pied sur le frein. Retour en { $position }.
brake-move-to = Pied sur le frein. Passez en { $position }.
offer-begin-in = Levier en { $position } : commencer
offer-back-in = De retour en { $position }
offer-now-in = Levier en { $position }

## Why, with numbers

head-fluid = Huile de boîte
head-coolant = Liquide de refroidissement
head-sump = Carter de boîte
head-display = Affichage
head-lamp = Plage du voyant
signal-below-band = { $signal } : { $celsius } ± { $u }, sous la plage { $band }.
signal-above-band = { $signal } : { $celsius } ± { $u }, au-dessus de la plage { $band }.
signal-inside-band = { $signal } : { $celsius } ± { $u }, dans la plage { $band }.
fluid-about = Huile de boîte : environ { $celsius } ± { $u }.
better-reading = Mieux : { $reading } (± { $u }).
runs-out-in-time = Il faut environ { $needs } min pour couler, il y a { $window } min.
runs-out-tight = Il faut environ { $needs } min pour couler, il y a { $window } min. Juste : tout à portée de main, ouvrez aussitôt au mot « maintenant ».
runs-out-too-long = Il faut environ { $needs } min pour couler, il y a { $window } min. Fermez à temps, faites le reste au second tour.
warming-a-minute = Chauffe de { $rate } par minute.
cooling-a-minute = Refroidit de { $rate } par minute.

## The search for the identifier

identifier-found = Identifiant : trouvé.
identifier-not-found = Identifiant : pas trouvé.
identifiers-asked = Identifiant : { $asked } sur environ { $planned } demandés
identifier-stopped = Identifiant : arrêté.
identifier-is-left = Identifiant : reste { $place }.
identifiers-may-be-it = Identifiant : { $left } possibles.
it-shows = Il affiche { $celsius }.
seconds-left = encore environ { $count } s
minutes-left = encore environ { $count } min

## Nothing is known

close-port-nothing-known = Fermez le bouchon de niveau. Rien n’est connu.
keep-port-closed-nothing-known = Gardez fermé le bouchon de niveau. Rien n’est connu.
leave-engine-nothing-known = Laissez le moteur tel quel. Rien n’est connu.
keep-port-closed = Gardez fermé le bouchon de niveau.
leave-gauge-nothing-known = Laissez la jauge. Rien n’est connu.
without-the-daemon = sans le programme
daemon-does-not-answer = Le programme ne répond pas. Une fois relancé, il reprend là où il était.
no-daemon-for = sans programme, { $seconds } s
a-person-tells-it = Une personne la saisit.
last-reading-too-old = La dernière mesure est trop ancienne. Elle revient d’elle-même.

## Names and counts on a screen

job-number = travail { $job }
data-unconfirmed = Personne n’a confirmé ces données du véhicule. Aucun travail ne commence avec elles.
data-guessed = Des données du véhicule sont estimées : le ± est plus large. Le plan dit ce qui aide le plus.
look-again-in = Recontrôlez dans environ { $minutes } min.
still-open = Reste à faire : { $what }.
until-window-opens = avant la bonne température
until-window-closes = encore à la bonne température
until-read-again = avant de relire
until-back-in-band = pour refroidir, moteur coupé
without-a-reading = sans mesure
torque-pipe = tube de trop-plein { $torque }
torque-check-plug = bouchon de niveau { $torque }
torque-fill-plug = bouchon de remplissage { $torque }
told-by-people = saisi à la main : { $what }
signal-seconds-ago = { $signal }, il y a { $count } s
signal-minutes-ago = { $signal }, il y a { $count } min
step-of = étape { $step } sur { $steps } : { $name }
step-prepare = préparer
step-drain = vidanger la boîte
step-fill = remplir
step-circulate = faire circuler
step-window = bonne température
step-run-out = laisser couler
step-trickle = mince filet
step-close = fermer
step-torque = serrer au couple
step-test-drive = essai sur route
step-recheck = recontrôler
amount-drained = vidangé { $amount }
amount-filled = rempli { $amount }
amount-ran-out = coulé { $amount }
amount-should-run-out = devrait couler { $amount }
amounts-at = { $amounts } (à { $celsius })

## The one huge word

word-wait = attendez
word-go = allez
word-too-hot = trop chaud
word-no-reading = sans mesure

## What can be told: buttons

offer-start-the-job = Commencer le travail
offer-another-kind-of-job = Un autre type de travail
offer-choose-another-sheet = Choisir d’autres données du véhicule
offer-hot-day-the-air-outside-in-the-shade = Jour chaud ? Air dehors, à l’ombre
offer-no-drive-is-felt-in-gear = Rien ne tire, rapport engagé
offer-it-differs-not-this-fluid = C’est différent : pas cette huile
offer-drained-how-much = Vidangé : combien
offer-filled-how-much = Rempli : combien
offer-it-was-in-and-more-came-out-how-much = Déjà en place, encore sorti : combien
offer-ran-out-how-much = Coulé : combien
offer-it-still-flows = Ça coule encore
offer-filled-more-how-much = Appoint fait : combien
offer-fluid-flows-from-the-check-port = L’huile coule du bouchon de niveau
offer-nothing-runs-out = Rien ne coule
offer-it-only-drips = Goutte à goutte seulement
offer-it-is-a-thin-thread-now = C’est un mince filet
offer-it-stands-at-the-lower-edge = L’huile est au bord inférieur
offer-it-stands-below-the-edge-how-far = L’huile est sous le bord : de combien
offer-it-runs-out-over-the-edge = L’huile passe par-dessus le bord
offer-fluid-runs-out-there = L’huile ressort là
offer-drawn-out-how-much = Aspiré : combien
offer-ran-out-from-the-jug-how-much = Coulé, lu au pichet : combien
offer-plugs-tightened-to-the-torques = Bouchons serrés au couple
offer-driven-no-leak-seen = Essai fait, aucune fuite vue
offer-write-the-record = Terminer le rapport
offer-check-port-closed-hand-tight = Bouchon de niveau fermé, à la main
offer-fluid-flows-now-at-go = L’huile coule, à « maintenant »
offer-it-leaks-damp-drops-runs = Fuite : humide, gouttes, coule
offer-how-it-stands-measured = Assiette du véhicule, mesurée
offer-the-gauge-shows = La jauge indique
offer-the-number-on-the-display = Le nombre sur l’affichage
offer-a-thermometer-s-reading = Une mesure au thermomètre
offer-it-stands-on-four-stands = Il est sur quatre chandelles
offer-the-lift-is-known-to-be-level = Le pont est connu à l’horizontale
offer-the-exhaust-goes-outside = L’échappement va dehors
offer-the-brake-is-held = Le pied est sur le frein
offer-the-cooler-pin-is-in = Goupille du refroidisseur en place
offer-rounds-done-selector-back-in-p-parking-brake = Tours faits, P, frein de stationnement
offer-p-parking-brake-on-chocks = P, frein de stationnement, cales
offer-the-fill-port-is-open = Bouchon de remplissage ouvert
offer-container-read-the-same-words = Bidon lu : mêmes mots
offer-the-pipe-is-in = Tube de trop-plein en place
offer-both-plugs-in-tray-and-hose-away = Deux bouchons mis, bac et tuyau enlevés
offer-i-am-out-and-clear = Je suis sorti, à l’écart
offer-the-cooler-pin-is-out = Goupille du refroidisseur retirée
offer-no-leak-seen = Aucune fuite vue
offer-covers-and-wheel-are-back-on = Caches et roue remontés
offer-the-service-mode-is-on = Mode entretien activé
offer-ready-is-off-key-below = Ready coupé, clé au collègue dessous
offer-it-is-dry = C’est sec
offer-everybody-is-safe = Tous hors de danger
offer-it-started-cold = Départ à froid
offer-selector-in-the-position-of-the-look = Levier en position de contrôle
offer-it-is-so = C’est bien ainsi
offer-recheck-of-number = Recontrôle d’un travail : son numéro
offer-the-check-port-is-open-fluid-flows = Bouchon de niveau ouvert, l’huile coule
offer-the-check-port-is-open-nothing-comes = Bouchon de niveau ouvert, rien ne coule
offer-old-fluid-went-with-a-part = Huile usagée partie avec une pièce
offer-kept-back-as-a-sample-how-much = Gardé comme échantillon : combien
offer-four-heights-front-left-right-rear-left-righ = Quatre hauteurs : avant gauche, droite, arrière gauche, droite
offer-a-remark-for-the-record = Une remarque pour le rapport
offer-which-vehicle-plate-or-order = Quel véhicule : plaque ou commande
offer-write-the-record-now = Terminer le rapport tout de suite
offer-end-the-job-without-a-level = Finir le travail sans niveau d’huile
offer-somebody-is-in-danger = Quelqu’un est en danger
offer-spilled-at-the-drain-by-eye-how-much = Renversé à la vidange, à l’œil : combien
offer-spilled-while-filling-by-eye-how-much = Renversé au remplissage, à vue : combien
offer-spilled-at-the-check-port-by-eye-how-much = Renversé au niveau, à l’œil : combien
offer-it-is-the-fluids = C’est l’huile de boîte : { $place }
offer-lamp-too-cold = Voyant trop froid : { $shows }
offer-lamp-right = Voyant bon : { $shows }
offer-lamp-too-hot = Voyant trop chaud : { $shows }

## What is asked with a choice

choice-check = contrôler seulement le niveau d’huile
choice-alone = changer l’huile, une personne seule
choice-check-alone = contrôler seulement, une personne seule

## On every screen

say-next = Ensuite : { $what }
say-balance = Quantités : { $what }
say-undo = Annuler : { $what }
hold-to-tell = maintenir pour confirmer
hold-longer = Maintenez un peu plus longtemps : { $what }.
told = Saisi.
refused = Refusé : { $why }
not-told-no-contact = Non transmis : sans liaison.
let-be = Laisser

## The terminal

term-open = reste à faire : { $what }
term-twice = (deux fois)
term-more = m suite
term-more-page = m suite ({ $page } sur { $pages })
term-other-seat = i autre place
term-undo = u annuler { $what }
term-leave = q quitter
term-press-again = { $what } : appuyez encore sur { $key }.
term-nothing-to-take-back = Rien de la dernière minute ne peut être annulé.
term-like-amount = comme 2.4L 22C
term-like-depth = comme 3mm
term-like-level = tangage et roulis, comme 0.1deg -0.2deg
term-like-spot = comme 38.5C tape ; { $surfaces }
term-like-temperature = comme 41C
term-like-number = son numéro : { $names }
term-then-enter = puis Entrée

## The page

page-connecting = connexion
page-nothing-known-yet = Rien n’est encore connu.
page-pipe-nothing-known = Le tube de trop-plein : rien n’est connu
page-pipe-shows = Le tube de trop-plein : { $celsius }, plage de { $low } à { $high }
page-positions = Positions du levier sélecteur
page-still-open = Reste à faire
page-cautions = Mises en garde
page-more = Plus
page-elsewhere = Ailleurs
page-seat-inside = La place à l’intérieur
page-seat-under = La place sous le véhicule
page-jobs = Travaux et rapports
page-plan = Plan
page-data = Données du véhicule
page-sound = Son
page-sound-on = Le son est activé
page-sound-off = Le son est désactivé
page-volume = Volume
page-vibration-on = La vibration est activée
page-vibration-off = La vibration est désactivée
page-hear-all = Tous les écouter
page-tell = Saisir
page-close = Fermer la fenêtre
page-pair-title = Associer ce navigateur
page-pair-where = Le code est affiché sur le terminal du programme ; standpipe page pair en affiche un nouveau.
page-code = Code
page-pair-clear = Cette page n’est pas chiffrée : qui écoute sur ce réseau peut tout lire et prendre le code.
page-pair = Associer
page-no-contact = sans liaison
page-no-contact-for = sans liaison, { $seconds }
page-without-contact = sans liaison
page-no-daemon = Pas de liaison avec le programme. Elle revient d’elle-même.
page-leave-engine = Laissez le moteur tel quel. Rien n’est connu.
page-close-port-if-open = Fermez le bouchon de niveau s’il est ouvert. Rien n’est connu.
page-how-much = Combien
page-how-warm = À quelle température
page-depth = Lu ou mesuré
page-pitch = Tangage, nez vers le haut est positif
page-roll = Roulis, côté gauche vers le haut est positif
page-temperature = Température
page-thermometer-shows = Le thermomètre indique
page-held-to = Appliqué ou pointé sur
page-in-your-words = Avec vos mots
page-which = Lequel
page-degrees = degrés
page-no-job = Pas encore de travail.
page-job = Travail { $job }, { $day }

## What can be taken back

undo-level = l’assiette mesurée
undo-drained = la quantité vidangée
undo-filled = la quantité remplie
undo-ran-out = la quantité écoulée
undo-gauge = la lecture de la jauge
undo-answer = la dernière réponse
undo-selector = le levier en { $position }
undo-trickle = le filet mince
undo-drips = les gouttes
undo-torqued = les bouchons serrés
undo-test-driven = l’essai routier

## How a bay is

status-job = Le travail { $job } est en cours.
status-adapter = Adaptateur : { $what }
status-by-people = Adaptateur : aucun, tout est saisi à la main
status-port-shut = Adaptateur : { $what }, son port est fermé
status-vehicle = Véhicule : répond par { $what }
status-vehicle-silent = Véhicule : pas de réponse
status-reading = Dernière mesure : { $celsius }, il y a { $age }
status-no-reading = Dernière mesure : aucune
status-disk = Journal : { $free } libres sur son disque
status-disk-silent = Journal : son disque ne répond pas
status-clock = Horloge : { $time }
status-clock-behind = Horloge : { $time }, en retard de { $behind }
status-clients = Clients : { $here } sur { $most }, celui-ci compris
status-running = Programme : version { $version }, en marche depuis { $time }

## Health

Health-healthy = Tout ce qu’il faut pour un travail est là.
Health-waiting = Il tourne et attend : rien ne peut encore être lu.
Health-needs-a-hand = Il tourne, mais quelqu’un doit intervenir.

## Ailment

Ailment-no-adapter = L’adaptateur n’est pas là ou ne répond pas.
    .remedy = Contrôlez sa prise et son câble ; il revient de lui-même.
Ailment-no-vehicle = Le véhicule ne répond pas.
    .remedy = Contrôlez la bonne tenue de l’adaptateur dans sa prise.
Ailment-no-reading = La température du contrôle n’est pas lue.
    .remedy = Attendez quelques secondes ; puis contrôlez l’identifiant dans la fiche.
Ailment-disk-full = Le disque du journal est presque plein.
    .remedy = Libérez de la place avant le prochain travail.
Ailment-disk-slow = Le disque du journal est lent : des événements attendent.
    .remedy = Prenez une autre carte ou un autre disque pour le journal.
Ailment-clock-behind = L’horloge est en retard sur ce que contient déjà le journal.
    .remedy = Mettez l’horloge à l’heure : les rapports portent sa date.

## ClosureCause

ClosureCause-opened-early = Ouvert avant la bonne température : ce que le convertisseur aurait pris a coulé aussi. Remplissez, puis réglez de nouveau.
ClosureCause-engine-stopped = Le moteur s’est arrêté, bouchon ouvert : ce qui revient du convertisseur a coulé aussi. Réglez de nouveau.
ClosureCause-wrong-temperature = Une quantité sans sa température, ou avec une fausse : l’huile chaude prend plus de place. Mesurez chaleur et quantité ensemble.
ClosureCause-was-low-before = Il manquait de l’huile avant : une partie du supplément l’a compensé. Demandez depuis quand, cherchez une vieille fuite.
ClosureCause-not-all-caught = Tout ce qui a coulé n’a pas été recueilli. Saisissez ce qui a été renversé, à l’œil.
ClosureCause-leak = L’huile part ailleurs. Regardez bouchons, joint de carter et conduites du refroidisseur avant le départ.
ClosureCause-was-high-before = Il y avait trop d’huile avant le travail.
ClosureCause-tube-not-seated = Le tube de trop-plein n’est pas en butée : l’huile a coulé à côté, il en manque. Serrez-le au couple, réglez de nouveau.
ClosureCause-drained-not-fully = Moins vidangé que prévu par les données : il reste plus d’ancienne huile. Le niveau n’en dépend pas.

## Cause

Cause-temperature = À la fermeture, l’huile n’était pas au milieu de la plage.
Cause-tilt = Le véhicule n’était pas exactement à plat.
Cause-warming = L’huile chauffait en gouttant : il en restait plus au-dessus du bord.
Cause-amount = Le remplissage diffère de la quantité indiquée, selon les récipients.
Cause-guess = Ce qui est estimé dans les données du véhicule.
Cause-residual = Le film resté au-dessus du bord diffère de celui du mince filet normal.

## Fault

Fault-code-stored = Le véhicule a enregistré un code défaut.
Fault-not-an-adapter = Ce qui répond à ce port n’est pas un tel adaptateur.
Fault-adapter-fault = L’adaptateur signale un défaut à lui.
Fault-bus-fault = Le bus du véhicule perturbe l’échange.
Fault-no-answer = Un calculateur ne répond pas à une requête.
Fault-declined = Un calculateur refuse une requête.
Fault-undecodable = Une réponse n’a pas pu être décodée : pas de mesure.
Fault-units-disagree = Les calculateurs donnent des valeurs différentes d’une même grandeur.
Fault-avoided = La liaison tombait à chaque envoi ; c’est envoyé en dernier et rarement désormais.
Fault-wrong-sender = Un calculateur non interrogé a répondu.
Fault-journal-slow = Le disque est lent.
Fault-journal-failed = Le journal ne peut pas être écrit.
Fault-journal-repaired = Le journal était abîmé ; ce qui est lisible continue, le fichier abîmé est gardé.
Fault-journal-damaged = Quelque chose dans le journal n’est pas ce qui fut écrit.

## Way

Way-drained = De ce qui a été vidangé.
Way-filled = De ce qui devait entrer.
Way-ran-out = De ce qui a coulé au bouchon de niveau.

## LampState

LampState-too-cold = Sous la plage.
LampState-right = Dans la plage.
LampState-too-hot = Au-dessus de la plage.

## Step

Step-prepare = Préparez : chandelles, à plat, ventilation, outils, récipients ; le bouchon de remplissage s’ouvre avant la vidange.
Step-drain = Vidangez, et mesurez ce qui est sorti et sa température.
Step-fill = Remplissez ce qui est sorti, et le supplément des données.
Step-circulate = Démarrez ; frein appuyé, passez le sélecteur par ses positions.
Step-window = Attendez la bonne température.
Step-run-out = Ouvrez le bouchon de niveau et laissez couler l’excès.
Step-trickle = Le jet est devenu un mince filet.
Step-close = Fermez le bouchon de niveau.
Step-torque = Serrez les bouchons aux couples des données du véhicule.
Step-test-drive = Roulez un court trajet, cherchez les fuites.
Step-recheck = Quelques jours après, recontrôlez le niveau à froid.

## Hint

Hint-four-stands = Quatre chandelles ou un pont prévu pour.
Hint-inclinometer = Inclinomètre, téléphone ou règle.
Hint-exhaust-hose = Tuyau d’échappement.
Hint-measuring-jug = Pichet gradué.
Hint-thermometer = Thermomètre.
Hint-tray = Bac.
Hint-gloves-and-glasses = Gants, lunettes.
Hint-new-fluid = Huile neuve.
Hint-pump = Pompe, ou entonnoir avec tuyau.
Hint-empty-jug = Pichet gradué vide.
Hint-lamp = Lampe.
Hint-torque-wrench = Clé dynamométrique.
Hint-new-seals = Joints neufs, selon le constructeur.
Hint-its-own-gauge = La jauge propre au véhicule.
Hint-cloth = Chiffon sans peluches.
Hint-fill-stated = Remplissez la quantité indiquée, mesurée.
Hint-fill-there = Remplissez par l’ouverture qu’on regarde : ce qui est sorti.
Hint-only-drips = Il ne fait que goutter.
Hint-close-by-hand = Fermez à la main.
Hint-no-port-here = Aucun bouchon n’est ouvert : une jauge se lit dans son tube, en mm.
Hint-read-twice = Essuyez, poussez en butée, tirez, lisez ; puis encore une fois.
Hint-two-must-agree = Deux qui s’accordent à 2 mm comptent. Non essuyée ou pas en butée, elle ne dit rien.
Hint-clean-the-cap = Nettoyez d’abord autour du capuchon ; remettez-le entre deux contrôles.
Hint-air-springs = Mode levage activé, la caisse tenue par chandelles ou pont avant d’aller dessous.
Hint-orange = Orange, c’est la haute tension : seulement pour une personne formée, jamais coupé ni déplacé.
Hint-on-a-lift = Sur un pont : P, frein de parking, sortez. Levez, posez sur les verrous ; personne dessous pendant le mouvement.
Hint-sit-down-first = Asseyez-vous avant que l’autre aille dessous ; sortez seulement quand dessous est libre.
Hint-wash-hands = Gants mis, lavez au savon, changez les vêtements trempés.
Hint-photo-if-black = Noire, brûlée, avec du métal : une photo, et le client décide avant de continuer.
Hint-never-what-ran-out = Huile neuve seulement, jamais celle qui a coulé.
Hint-out-of-a-pit = Hors de la fosse jusqu’au moment venu, tuyau branché.
Hint-wipe-around = Essuyez d’abord autour du bouchon, nettoyez tuyau et pompe.
Hint-new-washer = Le joint neuf va sur le bouchon pendant que ça coule.
Hint-fan-may-start = Le ventilateur peut démarrer seul, moteur arrêté : mains loin.
Hint-wipe-while-hot = À chaud, essuyez au chiffon sec ; pulvérisez seulement à froid, moteur arrêté.
Hint-all-but-the-stands = Tout sauf les chandelles, jusqu’au démarrage du moteur.
Hint-brake-any-time = Le frein à tout moment ; les positions seulement moteur en marche.
Hint-jug-may-wait = Le pichet peut être lu après.

## The report: what the customer reads

date = { $day } { $month ->
    [1] janvier
    [2] février
    [3] mars
    [4] avril
    [5] mai
    [6] juin
    [7] juillet
    [8] août
    [9] septembre
    [10] octobre
    [11] novembre
   *[12] décembre
} { $year }
report-title = Rapport sur l’huile de boîte
report-of-job = Travail { $job }, { $day }
times-from-to = { $from } à { $to }
times-since = depuis { $from }
label-and-value = { $label } : { $value }
job-not-ended = Le travail n’est pas terminé.
what-was-done = Qu’est-ce qui a été fait ?
is-it-right = Le niveau d’huile est-il correct ?
may-i-drive = Puis-je rouler ?
when-to-come-again = Quand dois-je revenir ?
what-it-costs = Combien cela coûte-t-il ?
what-you-should-know = Ce qu’il faut encore savoir
answer-yes = Oui.
answer-probably = Probablement.
answer-no = Non.
done-changed = L’huile de boîte a été changée : { $drained } sont sortis, { $filled } d’huile neuve sont entrés.
done-only-drained = { $drained } d’huile sont sortis. Aucune huile neuve n’a été saisie.
done-only-filled = { $filled } d’huile neuve sont entrés.
done-nothing-entered = Aucune quantité d’huile n’a été saisie.
done-checked = Le niveau d’huile de boîte a été contrôlé.
done-checked-again = Le niveau d’huile a été recontrôlé après le travail { $job }.
done-fresh-share = { $percent } % de l’huile dedans est neuve maintenant.
drive-not-before-the-end = Pas avant la fin du travail.
drive-not-said = Ce rapport ne le dit pas. Demandez à l’atelier avant de rouler.
again-not-right = Ce n’est pas encore fini. L’atelier doit régler le niveau d’huile.
days-and = { $days } et { $last }
again-no-day = Aucun jour n’a été indiqué.
again-on = { $days }. Laissez-le garé la nuit d’avant : le niveau se contrôle à froid.
customer-other-cause = Le niveau était correct : le défaut a une autre cause. L’huile neuve seule n’y remédie pas.
customer-driven-low = Le véhicule a roulé avec trop peu d’huile. Cela a pu user la boîte.
customer-ask-history = Il manquait de l’huile, sans fuite visible. Qui y a travaillé en dernier ?
customer-filled-wrong = Il y avait trop d’huile avant ce travail.
customer-worn = L’ancienne huile était noire, brûlée ou avec du métal : usure interne. Demandez conseil à l’atelier.
customer-water-in = L’ancienne huile était laiteuse : de l’eau ou du liquide de refroidissement est entré. Il faut trouver la cause.
customer-codes = Le véhicule a enregistré des codes défaut : { $codes }. Demandez à l’atelier ce qu’ils veulent dire.
customer-guessed = Certaines données du véhicule sont estimées. Le niveau est donc connu moins précisément.
label-not-confirmed = Non confirmé
label-vehicle = Véhicule
label-vin = Numéro de châssis (VIN)
label-odometer = Compteur kilométrique
label-date = Quand
label-workshop = Atelier
label-technician = Technicien
label-fluid = Huile de boîte
label-batch = Lot sur le bidon
label-cost = Coût
sign-technician = Technicien, date
sign-customer = Client, date

## The report: what the next technician reads

for-the-next-technician = Pour le prochain technicien
label-guessed = Estimé dans les données du véhicule
guesses-cost = Connu à ±{ $with } avec les estimations, à ±{ $without } sans.
guess-that-helps-most = Le plus utile serait : { $what }. Alors ±{ $within }.
label-recheck = Recontrôle
recheck-compared = Laissé { $left }, trouvé { $found } : écart { $change }, ±{ $within }.
recheck-agrees = C’est dans la marge connue des deux.
recheck-differs = C’est plus que la marge des deux.
recheck-not-comparable = Les deux ne peuvent pas être comparés.
label-told-before = Plainte avant
label-told-after = Avec le niveau réglé
label-level-error = Écart de niveau
level-error-is = { $amount }, ±{ $within } (k = 2) ; { $height } au tube de trop-plein. Plus veut dire trop.
label-band = Bonne température
band-by = { $low } à { $high }, lu par : { $signal }
label-torques = Couples de serrage
as-the-maker-says = selon le constructeur du véhicule
label-data = Données du véhicule
label-link = Lu par
entry-all-by-people = Sans adaptateur : tout a été saisi par des personnes.
label-readings = Mesures
readings-read = { $count }, vieilles de { $age } ms au plus.
readings-told = { $count }, saisies par des personnes.
readings-apart = À { $seconds } s d’intervalle au plus.
readings-pauses = Pauses de plus de 5 s : { $count }, la plus longue { $seconds } s.
readings-losses = Contact perdu : { $count } ×.
readings-restarts = Programme relancé : { $count } ×.
readings-known-at-closing = Incertitude type à la fermeture : { $u }.
section-wrong = Ce qui n’allait pas, et que faire
section-temperature = Température au cours du temps
section-budget = Écart de niveau, et de quoi il est fait
section-balance = Quantités mesurées
section-codes-and-fluid = Codes défaut et ancienne huile
section-old-fluid = Ancienne huile
section-steps = Étapes
section-told = Ce qui a été saisi, et quand
section-on-the-way = Ce qui s’est passé en route
section-stops = Avertissements affichés
section-photos = Photos
section-cautions = Mises en garde affichées
budget-cause = Cause
budget-amount = Quantité
budget-u = Incertitude type
budget-together = Ensemble, ± avec k = 2
balance-drained = vidangé
balance-filled = rempli
balance-ran-out = coulé
balance-with-parts = avec des pièces
balance-spilled = renversé, à l’œil
balance-kept = gardé
balance-expected = Devrait couler
balance-closure = Coulé moins le prévu
amount-and-uncertainty = { $amount }, incertitude type { $u }
balance-fresh = Huile neuve
balance-waste = Huile usagée
codes-before = Codes défaut au début
codes-after = Nouveaux pendant le travail
codes-none-told = le véhicule n’en a donné aucun
codes-nobody-read = non lus : il n’y avait pas d’adaptateur
old-fluid-not-entered = Personne n’a saisi son aspect.
state-open = pas commencée
state-started = commencée
state-done = faite
state-failed = ratée
state-undone = annulée
who-under = dessous
who-inside = à bord
who-vehicle = véhicule
who-person = une personne
entry-at = { $what } à { $celsius }
entry-spilled = Renversé { $amount }, à l’œil.
as-the-data-says = selon les données du véhicule
entry-kept = Gardé { $amount }
entry-level = Mesuré : avant { $pitch }, côté gauche { $roll }
entry-corners = Hauteurs : avant { $front }, arrière { $rear }
entry-air = Air extérieur
engine-idling = Le moteur tourne au ralenti
engine-stopped = Le moteur est arrêté
entry-below-edge = { $depth } sous le bord inférieur
entry-gauge = La jauge indique { $depth }
entry-confirmed = Confirmé
entry-selector = Sélecteur
entry-photo = Photo
entry-recheck-of-job = Recontrôle du travail
entry-identifier = Confirmé comme identifiant de l’huile
entry-leak = Fuite
entry-alarm = Alarme
entry-ended-by-hand = Terminé à la main
entry-remark = Remarque
entry-taken-back = Annulé
entries-before = avant cela encore { $count }, dans le journal
entries-of-thermometers = Mesures de thermomètre : { $count }, dans le graphique
more-in-the-journal = encore { $count } dans le journal
column-time = Heure
column-step = Étape
column-state = État
column-by = Par
column-what = Quoi
journal-range = Événements { $first } à { $last } du journal. Heures en { $zone }.
label-seal = Sceau
seal-is-checked-by = { $command } montre si le dossier a été modifié.
doubt-unread = L’événement { $event } ne peut pas être lu : { $why }.
doubt-changed = Les événements { $first } à { $last } ne sont pas comme ils furent écrits : ils manquent ou sont modifiés.
plot-no-temperature = Aucune température n’a été enregistrée.
plot-from-to = De { $from } à { $to }.
plot-was-right = La température était bonne (hachuré) de la minute { $from } à { $to }.
plot-never-right = La température n’a jamais été bonne.
plot-port-was-open = Le bouchon de niveau était ouvert de la minute { $from } à { $to }, fermé à { $celsius }.
plot-axis = minutes depuis le début ; { $unit }
plot-port-open = ouvert
pipe-drawn = Le tube de trop-plein : bonne température { $low } à { $high }.
pipe-drawn-closed = Le tube de trop-plein : bonne température { $low } à { $high }. Fermé à { $celsius }.
offer-odometer = Le compteur, avec l’unité
offer-technician = Qui a fait le travail
offer-workshop = Quel atelier
offer-fluid = L’huile, comme sur le bidon
offer-batch = Le lot sur le bidon
offer-cost = Le prix, avec la monnaie

## The board of many bays

bay-is-quiet = Aucun travail en cours ici.
bay-is-not-heard = Rien n’arrive. Allez voir.
board-empty = Aucun poste n’est encore reçu par { $broker }.
board-broker-lost = { $broker } ne répond pas. Ce qui est affiché est ancien.
board-keys = Tapez pour chercher. Ctrl-C quitte.
board-sought = Recherche : { $text }

## The plan

plan-title = Plan : { $sheet }
plan-buy = À acheter
plan-buy-says = { $count } × { $each } ({ $amount }) : { $fluid }
plan-fill = Remplir
plan-fill-says = environ { $amount } : { $parts }
plan-one-drain = une vidange de { $amount }
plan-drains = { $count } vidanges de { $amount }
plan-for-parts = { $amount } pour filtre, refroidisseur et carter
plan-the-extra = le supplément
plan-hand-in = environ { $amount }, à déposer
plan-fresh = Huile neuve ensuite
plan-at-best = { $percent } % au mieux
plan-runs-out = Coulera
plan-runs-out-says = environ { $amount } à { $celsius }, si le niveau était correct avant
plan-trickle = Jusqu’au mince filet
plan-trickle-says = environ { $seconds } s après l’ouverture : un repère, jamais une décision
plan-unknown = impossible à dire
plan-hot = Dans les lieux chauds
plan-hot-says = { $low } à { $high }, dès { $air } dehors : le véhicule le montre, ou saisi au début
plan-opens = La bonne température vient
plan-opens-says = { $minutes } après un démarrage à froid à { $air } : une voiture courante, faux du simple au double
plan-lasts = Elle le reste
plan-lasts-says = { $minutes }, avec le même doute
plan-minutes = { $low } à { $high } min
plan-hot-day = Jour chaud
plan-day-second-band = La plage des lieux chauds compte aujourd’hui. Si le véhicule ne montre pas l’air extérieur, saisissez-le au début.
plan-day-below-second = L’huile part près de la plage : la bonne température vient vite et dure peu. Commencez à la fraîcheur du matin. La plage des lieux chauds ne compte pas encore.
plan-day-no-second = L’huile part près de la plage : la bonne température vient vite et dure peu. Commencez à la fraîcheur du matin. Les données n’ont pas de plage pour les lieux chauds ; le constructeur peut-être.
plan-degree = Un degré
plan-degree-falls = { $amount } par { $degree } de trop à la fermeture : fermé trop froid, trop plein ; trop chaud, trop bas
plan-degree-rises = { $amount } par { $degree } de trop à la fermeture : fermé trop froid, trop bas ; trop chaud, trop plein
plan-left-out = Non compté
plan-leaves-out-slope = comment la pente des données change hors de la plage, et où l’huile est retenue ou libérée ; la dilatation est dans cette pente
plan-leaves-out-thermostat = l’huile qu’un thermostat retient ou libère en chauffant : seule la dilatation compte
plan-tilt = Une inclinaison
plan-tilt-says = { $pitch } pour 1° avant levé, { $roll } pour 1° côté gauche levé : restez sous { $allowed }
plan-not-confirmed = Personne n’a confirmé
plan-before-any-job = { $what } : aucun travail ne commence avant confirmation
plan-guessed = Estimé
plan-guess-costs = { $what } : coûte { $amount } du ±
plan-guess-is-free = { $what } : sans effet sur le ±
plan-off = Ce que coûte un écart
plan-off-by = Écart
plan-off-pipe = Au tube de trop-plein
plan-off-temperature = température { $by }
plan-off-nose = avant levé { $by }
plan-off-left = côté gauche levé { $by }
plan-still-right = encore bon
plan-too-much = trop
plan-checklist = Liste
plan-at-hand = Sous la main
plan-beware = Attention
plan-out-of-order = Peut être saisi hors de l’ordre
plan-stop-rules = Quand arrêter, à toute étape
who-either = l’un des deux
line-exchanges = Vidangez et remplissez { $count } fois. Entre-temps, moteur en marche, passez les positions.
line-selector = { $positions } : { $dwell } s chacune, { $rounds } tours
line-look = Regarder : { $look }
line-looks = Regardez { $count } fois, l’une après l’autre.
line-look-number = Contrôle { $number } : { $look }
line-wave = Une petite vague toutes les { $seconds } s n’est pas l’excès : regardez entre deux.
line-stand = Pas à plat : { $how }. Mesurez, à l’œil ne compte pas.
stand-nose-up = { $degrees } avant levé
stand-nose-down = { $degrees } avant baissé
stand-left-up = { $degrees } côté gauche levé
stand-right-up = { $degrees } côté droit levé
look-idling = au ralenti
look-engine-off = moteur arrêté
look-ready-off = READY éteint
look-in-position = en { $position }
look-after = après { $seconds } s
look-between = { $from } à { $to } s après l’arrêt
look-in-band = à la bonne température
sign-thread = l’excès coule jusqu’au mince filet
sign-first-drips = d’abord sec ; goutte avant le haut de la plage
sign-drips = il coule jusqu’à ne faire que goutter
sign-below-edge = l’huile est de { $low } à { $high } sous le bord inférieur
sign-at-edge = l’huile est au bord inférieur
sign-chart = la jauge indique ce que permet le tableau
sign-amounts = les quantités sont bonnes
look-then-add = fermé, puis encore { $amount }
