### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = Elija el vehículo. Después empiece el trabajo.
Advice-prepare-vehicle = Póngalo en cuatro caballetes o un elevador. Vehículo nivelado, manguera de escape afuera.
Advice-shim-stands = Salga. Después nivele el vehículo en los caballetes y mida otra vez.
Advice-park = P, freno de estacionamiento puesto. Calzos en las ruedas que quedan en el suelo.
Advice-read-container = Lea el envase en voz alta junto a los datos del vehículo. ¿Las mismas palabras?
Advice-open-fill-port = Abra primero el tapón de llenado. Solo después vacíe el aceite.
Advice-cool-before-drain = Déjelo enfriar antes de vaciar el aceite. A más de 60 °C quema.
Advice-switch-ready-off = Apague Ready, dé la llave al de abajo. El motor puede encenderse solo.
Advice-drain = Vacíe el aceite, quite también el tubo de rebose. Mida cuánto sale y su temperatura.
Advice-drain-again = Motor apagado, mantenga cerrados ambos tapones. Después vacíe y llene otra vez.
Advice-put-pipe-in = Ponga el tubo de rebose a mano, hasta el tope. Demasiado apretado, se raja.
Advice-was-pipe-out = Salió poco: ¿quitó el tubo de rebose? Después vuelva a ponerlo.
Advice-is-pipe-in = ¿Está puesto el tubo de rebose? Sin él se vacía el cárter de la caja.
Advice-fill = Llene con lo que salió, más el extra.
Advice-close-up = Ponga ambos tapones a mano. Retire la manguera de llenado y la bandeja.
Advice-put-pin-in = Ponga el pasador del enfriador. Solo después se enciende el motor.
Advice-lead-exhaust = Ponga la manguera de escape, con el extremo afuera. Las puertas abiertas no bastan.
Advice-check-exhaust = Mucho tiempo al ralentí: ¿está puesta la manguera de escape? Dolor de cabeza: salga primero.
Advice-come-out = Salga. Diga cuando esté fuera.
Advice-stay-out = Quédese fuera. El motor se enciende, la palanca selectora se mueve.
Advice-wait-for-clear = Espere. Siga solo cuando el de abajo diga que está fuera.
Advice-start-engine = Encienda el motor. Mantenga pisado el freno, quédese en P.
Advice-hold-brake = Pise el freno y manténgalo pisado. Palanca selectora en P.
Advice-cycle-selector = Mantenga pisado el freno. Pase la palanca selectora por sus posiciones.
Advice-switch-mode-on = Ponga el modo de servicio, quite el Start-Stop. Diga cuando esté hecho.
Advice-confirm-open = Queda algo pendiente. Corríjalo, después confírmelo.
Advice-stay-clear = Quédese fuera. La temperatura correcta llega más tarde.
Advice-keep-idling = Manténgalo al ralentí en P. Suelte los pedales, deje todo como está.
Advice-may-stop = El motor ya se apagó solo en este punto antes. Deje todo como está.
Advice-keep-idling-until-closed = Manténgalo al ralentí hasta que abajo digan que está cerrado.
Advice-be-ready = Póngase debajo ya. Mantenga cerrado el tapón de nivel.
Advice-look-position = Mantenga pisado el freno. Palanca selectora en la posición de la comprobación.
Advice-settle = Quédese fuera hasta que el aceite se asiente. Deje todo como está.
Advice-open-port = Abra el tapón de nivel ahora, desde un lado. Gafas puestas.
Advice-watch-stream = Mire desde un lado. Diga cuando sea un hilo fino.
Advice-watch-drips = Mire desde un lado. Diga cuando salgan las primeras gotas.
Advice-open-port-off = Mantenga apagado el motor. Abra el tapón ahora, desde un lado.
Advice-watch-off = Motor apagado. Mire: diga cuando sea un hilo fino.
Advice-look-at-edge = Mire hasta dónde llega el aceite. Diga al borde, o cuánto por debajo.
Advice-read-gauge = Limpie la varilla, métala hasta el tope. Diga los milímetros.
Advice-read-again = Límpiela, léala otra vez. Dos lecturas deben coincidir en 2 mm.
Advice-draw-out = Demasiado lleno. Extraiga algo por el tubo de la varilla, midiendo.
Advice-let-some = Demasiado lleno. Deje salir algo hasta el nivel de aceite correcto.
Advice-still-flowing = ¿Sigue saliendo después de 15 s? Dígalo; si no, ciérrelo.
Advice-close-port = Ciérrelo ya, a mano.
Advice-close-port-wait = Cierre el tapón de nivel. Esta no es la temperatura correcta.
Advice-close-port-cool = Cierre el tapón de nivel. Muy caliente.
Advice-close-too-much = Ciérrelo ya. Salió demasiado: ¿tapón equivocado?
Advice-stop-and-cool = Apague el motor. Déjelo enfriar, después otra vez al ralentí.
Advice-stop-now = Apague el motor ya. P.
Advice-stop-engine = Apague el motor. Saque la llave, téngala en la mano.
Advice-keep-off = Mantenga apagado el motor.
Advice-keep-closed = Manténgalo cerrado. Primero se apaga el motor.
Advice-stay-away = Quédese fuera. Primero tiene que enfriarse.
Advice-answer = Responda: ¿está bien?
Advice-call-below = Llame al de abajo. Sin respuesta: apague el motor, vaya a mirar.
Advice-charge-battery = Batería débil. Apague el motor, salga, después cárguela.
Advice-fill-first = Mantenga apagado el motor. Primero llene con lo que falta.
Advice-fill-more = Cierre a mano el tapón de nivel. Falta aceite: añada más.
Advice-fill-to-edge = Motor apagado, tapón abierto: llene hasta que salga por ahí. Mida.
Advice-add-amount = Cierre a mano el tapón. Después añada la cantidad de los datos del vehículo.
Advice-fill-here = Falta aceite. Añada más por esta abertura.
Advice-hose-out = Saque la manguera de llenado. Diga qué sale: chorro, gotas o nada.
Advice-look-why-low = Deje de llenar. Busque una fuga o un tapón equivocado.
Advice-drain-wrong = Aceite equivocado: mantenga apagado el motor. Vacíelo, llene con el correcto.
Advice-read-jug = Lea primero la jarra medidora: diga cuánto salió.
Advice-let-out = Demasiado lleno: mantenga apagado el motor. Deje salir lo que sobra, midiendo.
Advice-soak-up = Recójalo con absorbente. Limpie el escape cuando esté frío.
Advice-check-adapter = Cierre a mano el tapón de nivel. Después revise el conector del adaptador.
Advice-ask-engine = ¿Motor al ralentí, sin testigo rojo? Entonces dígalo.
Advice-say-engine = ¿Está apagado el motor? Diga qué hace.
Advice-close-port-engine = Cierre el tapón de nivel. Nadie confirma que el motor esté al ralentí.
Advice-feel-pan = ¿Parado 8 h, cárter de la caja frío como el aire? Entonces confirme.
Advice-read-inside = ¿Qué muestra el vehículo de su aceite de la caja? Dígalo.
Advice-push-adapter = Deje el motor como está. Vuelva a meter el adaptador.
Advice-check-sensor = Manténgalo cerrado. Mida el cárter de la caja sobre cinta mate.
Advice-tighten = Deje puestos ambos tapones. Motor apagado, después apriételos.
Advice-take-pin-out = Quite el pasador del enfriador con el motor apagado. Si queda, se sobrecalienta.
Advice-wipe-dry = Séquelo con un paño. Salga, diga que está fuera.
Advice-look-for-leaks = Después de 5 min al ralentí, busque gotas.
Advice-look-for-drops = Busque gotas alrededor de los tapones.
Advice-mend-leak = Motor apagado. Repare primero la fuga.
Advice-refit = Monte cubiertas y rueda. Ya en el suelo, apriete las tuercas a su par de apriete.
Advice-test-drive = Baje el vehículo. Conduzca suave un tramo corto, después busque fugas.
Advice-not-driven = Prohibido conducir. Falta aceite.
Advice-finish = Termine el informe.
Advice-recheck = Vuelva a comprobar el nivel de aceite, en frío. El informe dice qué día.
Advice-set-again = El nivel de aceite no está ajustado. Vea el informe, después mire otra vez.
Advice-wait = Dentro no hay nada que hacer aún. Deje todo como está.
Advice-fresh-air = Salgan todos al aire libre. Pidan ayuda.
Advice-get-out = Salgan todos. Llamen a los bomberos.
Advice-engine-off-caught = Apague el motor ya, P, mantenga pisado el freno. Pida ayuda.
Advice-hold-still = Quédese quieto: nadie tira, nadie baja el vehículo. Viene ayuda.
Advice-cool-burn = Agua corriente fresca en la quemadura, 20 min. Sin hielo.
Advice-help-burn = Ayúdele a salir. Cierre el tapón de nivel desde un lado, después apague el motor.

## Caution

Caution-maker-first = Siga al fabricante, las normas locales y el oficio autorizado donde difieran.
Caution-four-stands = Cuatro caballetes, o un elevador en sus seguros. Un gato sin caballetes mata.
Caution-hot-fluid = Guantes, mangas, gafas puestas. Aceite, cárter de la caja y escape queman.
Caution-running-engine = Motor encendido. Aleje pelo y mangas de correas, ventilador y ejes.
Caution-brake-held = Quédese fuera. Freno pisado, ruedas libres o calzadas.
Caution-ventilation = El gas de escape mata. Manguera de escape puesta, extremo afuera: puertas abiertas no bastan.
Caution-waste-oil = Recójalo en un recipiente propio. Entréguelo como aceite usado.
Caution-overheating = Muy caliente. Apague el motor ya, palanca selectora en P, lejos hasta que enfríe.
Caution-low-voltage = Batería débil: luces y ventilador apagados. Cárguela solo con motor apagado y todos fuera.
Caution-long-idling = Mucho tiempo al ralentí. ¿Manguera de escape puesta, extremo afuera? Dolor de cabeza en alguien: salgan primero.
Caution-lost-while-open = Sin lectura, tapón de nivel abierto. Ciérrelo a mano; mantenga el motor al ralentí, después revise el conector del adaptador.
Caution-fill-port-first = Primero el tapón de llenado. Si se vacía y está atascado, queda inmóvil.

## Precondition

Precondition-on-stands = En cuatro caballetes o elevador, suelo duro y plano, sacudido, firme.
    .short = caballetes
Precondition-vehicle-level = El vehículo está nivelado.
    .short = vehículo nivelado
Precondition-exhaust-outside = Manguera de escape puesta, extremo afuera; o el vehículo al aire libre.
    .short = manguera de escape
Precondition-brake-held = El freno está pisado mientras se mueve la palanca selectora.
    .short = freno pisado
Precondition-cooler-bypass = El paso del enfriador está abierto, fijado con su pasador.
    .short = pasador del enfriador
Precondition-selector-cycled = La palanca selectora pasó por sus posiciones según los datos del vehículo.
    .short = palanca selectora
Precondition-filled = Se llenó con aceite nuevo, con el extra.
    .short = llenado
Precondition-started-cold = Se encendió en frío: refrigerante y aire coincidían, o estuvo parado 8 horas.
    .short = encendido en frío
Precondition-engine-running = El motor está encendido.
    .short = motor
Precondition-engine-idling = Motor al ralentí, dentro del rango de los datos del vehículo.
    .short = ralentí
Precondition-engine-off = El motor está apagado, como pide esta comprobación.
    .short = motor apagado
Precondition-settled = El aceite se asentó el tiempo de los datos del vehículo.
    .short = aceite asentado
Precondition-in-position = La palanca selectora está en la posición de la comprobación.
    .short = posición de la comprobación
Precondition-standing-still = El vehículo está quieto.
    .short = vehículo quieto
Precondition-parked = Palanca selectora en P, freno de estacionamiento puesto y firme. Calzos en las ruedas que quedan en el suelo.
    .short = freno de estacionamiento
Precondition-fill-port-open = Se abrió el tapón de llenado: se mueve.
    .short = tapón de llenado
Precondition-fluid-right = Se leyó el envase junto a los datos del vehículo: lo mismo.
    .short = envase leído
Precondition-pipe-in = Tubo de rebose puesto otra vez, a mano hasta el tope. Después su pequeño par de apriete.
    .short = tubo de rebose puesto
Precondition-closed-up = Tapones de nivel y llenado puestos a mano. Bandeja y manguera de llenado fuera.
    .short = tapones puestos, bandeja fuera
Precondition-clear = El de abajo salió con sus herramientas y lo dijo.
    .short = está fuera
Precondition-bypass-out = El pasador del enfriador está quitado.
    .short = pasador del enfriador quitado
Precondition-no-leak = Motor al ralentí, parte inferior seca: no se ve fuga.
    .short = búsqueda de fugas
Precondition-refitted = Cubiertas y rueda montadas, tuercas apretadas con el vehículo en el suelo.
    .short = cubiertas, rueda
Precondition-mode-on = Modo de servicio puesto, Start-Stop quitado.
    .short = modo de servicio
Precondition-ready-off = Ready apagado, la llave la tiene el de abajo.
    .short = Ready apagado
Precondition-dry = Lo derramado está recogido, el escape limpio.
    .short = derrame seco
Precondition-all-safe = Todos están fuera de peligro.
    .short = todos a salvo

## Reason

Reason-in-band = El aceite está dentro del rango, incluida la incertidumbre.
Reason-no-band = Esta comprobación no pide temperatura.
Reason-below-band = El aceite está todavía por debajo del rango.
    .remedy = Deje el motor al ralentí; la previsión dice cuánto tiempo.
Reason-above-band = El aceite está por encima del rango.
    .remedy = Mantenga cerrado el tapón de nivel, apague el motor y déjelo enfriar.
Reason-guard-band = Tan cerca del límite del rango que puede estar fuera.
    .remedy = Espere; pronto estará claro.
Reason-hysteresis = Apenas dentro del rango, o aún mezclándose después de encender el motor.
    .remedy = Espere; pronto estará claro.
Reason-too-uncertain = La temperatura no se conoce bastante bien para este rango.
    .remedy = Dé una lectura mejor: un identificador del aceite, o termómetro sobre cinta o pintura mate.
Reason-no-reading = Todavía no hay lectura de temperatura.
    .remedy = Con el contacto puesto, la primera llega en unos segundos.
Reason-stale = La última lectura de temperatura es demasiado vieja.
    .remedy = Vuelve sola; si no, revise el conector del adaptador.
Reason-link-lost = No hay conexión con el vehículo.
    .remedy = Revise el conector del adaptador y el contacto; vuelve sola.
Reason-frozen = La temperatura no cambió aunque debía: el sensor puede estar trabado.
    .remedy = Compare con un termómetro en el cárter de la caja; si difieren, falla el sensor o su cableado.
Reason-stepped-away = La temperatura saltó más de lo posible para el aceite.
    .remedy = Revise el conector del sensor; espere hasta que las lecturas coincidan otra vez.
Reason-not-alive = La temperatura no ha cambiado todavía. Así el sensor no está probado.
    .remedy = Compare con un termómetro en el cárter de la caja; si difieren, falla el sensor o su cableado.
Reason-copies-coolant = La lectura del aceite iguala siempre al refrigerante: quizá la sustituye la unidad de control.
    .remedy = Antes de fiarse, mida el cárter de la caja con termómetro.
Reason-disagrees = La temperatura no encaja con refrigerante, aire, encendido o termómetro.
    .remedy = Mida el cárter de la caja sobre cinta o pintura mate. Revise el identificador en los datos del vehículo y la superficie anotada.
Reason-units-disagree = Las unidades de control dan temperaturas distintas. Nadie ha dicho cuál es la correcta.
    .remedy = Averigüe con un termómetro cuál es la correcta. Indíquela en los datos del vehículo: `check.from`.
Reason-other-vehicle = El adaptador está conectado a otro vehículo, no al de este trabajo.
    .remedy = Conecte el adaptador otra vez al vehículo de este trabajo.
Reason-sensor-code = Hay un código de fallo del sensor de temperatura del aceite.
    .remedy = Repare primero el sensor o su circuito; esta temperatura no es fiable.
Reason-overheat-code = Hay un código de fallo por aceite sobrecalentado.
    .remedy = Averigüe por qué se sobrecalentó antes de ajustar el nivel de aceite.
Reason-implausible = La lectura está fuera de lo posible para el aceite.
    .remedy = Revise el conector del sensor; espere hasta que las lecturas coincidan otra vez.
Reason-precondition-open = Falta confirmar algo que debe cumplirse antes de ajustar el nivel.
    .remedy = Vea la lista de lo pendiente.
Reason-no-job = No se ha empezado ningún trabajo.

## Trouble

Trouble-port-gone = La conexión con el adaptador está cortada.
    .remedy = Revise el conector y el cable del adaptador; vuelve solo.
Trouble-adapter-silent = El adaptador no responde.
    .remedy = Revise el conector del adaptador; vuelve solo.
Trouble-adapter-mute = El adaptador no dice nada, aunque se reabrió su puerto.
    .remedy = Saque el adaptador y vuelva a meterlo; si no ayuda, use otro.
Trouble-out-of-step = El adaptador responde, pero no a lo que se le pregunta.
    .remedy = Saque el adaptador y vuelva a meterlo; si no ayuda, use otro.
Trouble-adapter-fault = El adaptador avisa de un fallo propio.
    .remedy = Saque el adaptador y vuelva a meterlo; si no ayuda, use otro.
Trouble-restarting = El adaptador perdió su configuración y se configura otra vez.
    .remedy = Vuelve solo; si se repite una y otra vez, revise su conector.
Trouble-modem = En este puerto responde un módem.
    .remedy = Indique otro dispositivo: este puerto no es el del adaptador.
Trouble-loop = Solo vuelve lo enviado: un cable suelto, o un adaptador sin alimentación.
    .remedy = Conecte el adaptador al vehículo: ahí recibe su alimentación.
Trouble-noise = De este puerto solo llega ruido.
    .remedy = Indique la velocidad del adaptador con su dispositivo, u otro dispositivo.
Trouble-talk = Lo que responde no acepta los ajustes de un adaptador de diagnóstico.
    .remedy = Saque el adaptador y vuelva a meterlo; si no ayuda, use otro.
Trouble-not-understood = El adaptador no entiende lo que hay que preguntar al vehículo.
    .remedy = Use otro adaptador.
Trouble-senders-unknown = Responden varias unidades de control. El adaptador no dice cuál envió qué.
    .remedy = Use otro adaptador, uno que nombre los emisores.
Trouble-sender-unknown = El adaptador no dice qué unidad de control responde.
    .remedy = Use otro adaptador, uno que nombre los emisores.
Trouble-protocol-unknown = El vehículo responde, pero el adaptador no dice en qué bus.
    .remedy = Use otro adaptador.
Trouble-unreadable = El vehículo responde, pero el texto del adaptador no se puede leer.
    .remedy = Se pregunta otra vez solo; si sigue así, use otro adaptador.
Trouble-late-reply = El adaptador no termina sus respuestas a tiempo.
    .remedy = Se pregunta otra vez solo; si sigue así, use otro adaptador.
Trouble-interrupted = El adaptador interrumpe lo que se le pregunta.
    .remedy = Se pregunta otra vez solo; si sigue así, use otro adaptador.
Trouble-spoilt = Las respuestas se dañan por el camino.
    .remedy = Revise conector y cable; se pregunta otra vez solo. Si sigue así, use otro adaptador.
Trouble-other-request = Las respuestas son de otras preguntas.
    .remedy = Se pregunta otra vez solo; si sigue así, use otro adaptador.
Trouble-repeats = El adaptador solo repite respuestas antiguas.
    .remedy = Saque el adaptador y vuelva a meterlo; si no ayuda, use otro.
Trouble-unsteady = El valor cambia de una respuesta a otra.
    .remedy = Revise conector y cable; se pregunta otra vez solo. Si sigue así, use otro adaptador.
Trouble-vehicle-silent = El vehículo no responde.
    .remedy = Revise el contacto, y que el adaptador esté firme en la toma.
Trouble-search-endless = La búsqueda del vehículo no termina.
    .remedy = Se intenta otra vez solo; revise que el adaptador esté firme en la toma.
Trouble-bus-start = El bus del vehículo no arranca.
    .remedy = Revise el contacto, y que el adaptador esté firme en la toma.
Trouble-bus-trouble = El bus del vehículo perturba lo que se envía.
    .remedy = Revise que el adaptador esté firme. Deje la toma libre de otros aparatos.
Trouble-only-refusals = El vehículo rechaza incluso la primera pregunta.
    .remedy = Algunos vehículos bloquean su toma; entonces solo queda un termómetro.
Trouble-unit-silent = Ninguna unidad de control responde a esta pregunta.
    .remedy = El vehículo sí responde: revise cabecera e identificador en los datos del vehículo.
Trouble-unit-busy = La unidad de control pide más tiempo y no responde.
    .remedy = Si sigue así, revise el identificador en los datos del vehículo.
Trouble-refused-unknown = La unidad de control rechaza: no conoce este identificador.
    .remedy = Revise identificador y cabecera en los datos del vehículo.
Trouble-refused-locked = La unidad de control rechaza: tiene este valor bloqueado.
    .remedy = Use datos del vehículo con refrigerante o termómetro.
Trouble-refused-now = La unidad de control rechaza por el momento: no hay condiciones.
    .remedy = Siga; quizá responda en el paso con el motor encendido.
Trouble-refused = La unidad de control rechaza esta pregunta.
    .remedy = Revise identificador y cabecera en los datos del vehículo.
Trouble-wrong-sender = Responde otra unidad de control, no la preguntada.
    .remedy = Revise la cabecera en los datos del vehículo.
Trouble-not-addressable = La unidad de control indicada no es accesible en este bus.
    .remedy = Revise la cabecera en los datos del vehículo.
Trouble-undecodable = La respuesta no tiene la forma de los datos del vehículo.
    .remedy = Revise byte y longitud del identificador en los datos del vehículo.

## Outcome

Outcome-set = El nivel de aceite queda correcto.
Outcome-set-low = Nivel de aceite ajustado, pero falta más aceite de lo permitido.
Outcome-set-high = Nivel de aceite ajustado, pero sobra más aceite de lo permitido.
Outcome-not-set = El nivel de aceite no está ajustado.
Outcome-set-unsure = El nivel de aceite es probablemente correcto.
Outcome-checked = El nivel de aceite era correcto.

## Drivable

Drivable-yes = Se puede conducir.
Drivable-workshop-only = Solo se puede mover dentro del taller.
Drivable-no = Prohibido conducir; muévalo solo con las ruedas motrices levantadas del suelo.

## Meaning

Meaning-other-cause = El nivel de aceite era correcto: el síntoma tiene otra causa. Cambiar el aceite no lo cura. Lea los códigos de fallo.
Meaning-driven-low = Se condujo con falta de aceite. Pregunte si patina, lea los códigos de fallo, dígaselo al cliente.
Meaning-ask-history = Faltaba aceite y no se ve fuga. Pregunte quién trabajó en él y cuándo.
Meaning-filled-wrong = Estaba demasiado lleno. ¿Se llenó en frío, o lleva otro aceite? Pregunte.
Meaning-worn = Negro, quemado o con metal: está gastado por dentro. Decide el cliente.
Meaning-water-in = Lechoso: tiene agua o refrigerante. Busque por dónde entra.

## Question

Question-symptoms = ¿Por qué está aquí?
Question-leaks = Mire por debajo: ¿pierde aceite?
Question-leak-place = ¿Dónde está la fuga?
Question-fluid = Las primeras gotas: ¿qué aspecto tiene el aceite?

## FindNext

FindNext-key-on = Ponga solo el contacto. Deje el motor apagado y frío.
FindNext-key-off = Quite el contacto diez minutos. Después contacto puesto, motor apagado.
FindNext-wait = Deje el contacto puesto y el motor apagado.
FindNext-charge-battery = Cargue la batería. La búsqueda sigue sola.
FindNext-stop-engine = Apague el motor. La búsqueda lo necesita apagado.
FindNext-start-engine = Salgan todos de debajo, manguera de escape afuera. Después enciéndalo, en P.
FindNext-warm = Déjelo al ralentí para que se caliente.
FindNext-spot = Solo sobre cuatro caballetes, lejos de ejes: mida el cárter de la caja. Anote la lectura del termómetro.
FindNext-cold-soak = Deje el vehículo parado toda la noche, después empiece otra vez.
FindNext-confirm = ¿Muestra lo mismo que el termómetro? Entonces confírmelo.
FindNext-by-thermometer = Ajuste el nivel de aceite con termómetro.
FindNext-look-at-link = Mire el adaptador, después inicie la búsqueda otra vez.
FindNext-nothing = Aquí no hay nada más que hacer.

## EngineWord

EngineWord-idling = Está al ralentí.
EngineWord-stopped = Está apagado.

## Surface

Surface-tape = Cinta mate sobre el cárter metálico de la caja.
Surface-matt-paint = Pintura mate sobre el cárter metálico de la caja.
Surface-plastic = Un cárter de la caja de plástico.
Surface-bare-metal = Metal desnudo: rechazado para infrarrojo, su lectura es la del entorno.
Surface-contact = Una sonda de contacto en el cárter metálico de la caja.
Surface-stream = Una sonda en el propio aceite.
Surface-air = Ninguna superficie: el aire debajo del vehículo.

## Narrowing

Narrowing-spot-on-tape = Termómetro sobre cinta o pintura mate del cárter de la caja.
Narrowing-air-under-vehicle = La temperatura del aire debajo del vehículo.

## Symptom

Symptom-slips = Patina con la marcha puesta.
Symptom-flares = El motor se revoluciona entre dos marchas.
Symptom-late = La marcha entra tarde.
Symptom-hard = La marcha entra con golpe.
Symptom-whine = Zumba.
Symptom-shudder = Da sacudidas.
Symptom-lamp = Se encendió un testigo.
Symptom-leak = Se vio aceite debajo.
Symptom-worked-on = Alguien trabajó en él hace poco.
Symptom-none = No se notó nada.

## Leak

Leak-dry = Seco.
Leak-damp = Húmedo: no cuelga ninguna gota.
Leak-drops = Se forman gotas.
Leak-runs = Chorrea.

## LeakPlace

LeakPlace-pan = En el cárter de la caja.
LeakPlace-pipe-or-plug = En el tubo de rebose o un tapón.
LeakPlace-cooler-line = En un tubo del enfriador.
LeakPlace-axle-seal = En un retén de semieje.
LeakPlace-converter-housing = En la carcasa del convertidor.
LeakPlace-not-seen = No se ve dónde.

## FluidLook

FluidLook-red = Rojo, o como nuevo.
FluidLook-brown = Marrón.
FluidLook-black = Negro.
FluidLook-burnt = Huele a quemado.
FluidLook-milky = Lechoso.
FluidLook-metal = Lleva metal.

## Alarm

Alarm-air = Aire malo: mareo, dolor de cabeza.
Alarm-burn = Alguien tiene quemaduras.
Alarm-caught = Alguien está atrapado.
Alarm-fire = Fuego.

## Part

Part-filter = El filtro viejo, empapado.
Part-cooler = El enfriador y sus tubos, vaciados.
Part-pan = El cárter de la caja, desmontado: lo que quedaba dentro.
Part-converter = El convertidor, vaciado.

## Refusal

Refusal-no-job = No se ha empezado ningún trabajo: primero `tell start`.
Refusal-job-running = Hay un trabajo en curso: termínelo primero con `tell done` o `tell abort`.
Refusal-not-yet = Eso viene más tarde en el trabajo; un paso anterior está pendiente.
Refusal-already-done = Eso ya está anotado; `tell undo` lo anula.
Refusal-not-go = El veredicto no es `go`, así que el nivel de aceite no puede ser correcto ahora.
Refusal-not-the-sign = Este vehículo muestra su nivel de aceite con otra señal: anote lo que pide la pantalla.
Refusal-port-closed = No está anotado que el tapón de nivel esté abierto: primero `tell flowing`.
Refusal-port-open = El tapón de nivel sigue abierto: ciérrelo y primero `tell closed`.
Refusal-shown-by-vehicle = Eso lo muestra el propio vehículo; una persona no puede confirmarlo.
Refusal-not-needed = Los datos del vehículo no lo piden.
Refusal-not-level = El vehículo no está bastante nivelado: el nivel de aceite fallaría más de lo que permiten los datos del vehículo.
Refusal-impossible-amount = Esa cantidad no es posible: más de lo que cabe en la caja, o no más que nada.
Refusal-more-out-than-in = Habría salido más de lo que nunca hubo dentro; mida otra vez.
Refusal-useless-surface = El metal desnudo refleja su entorno: ponga cinta mate y mida sobre ella.
Refusal-impossible-value = Ningún vehículo en un taller tiene ese valor; mida otra vez.
Refusal-amount-unknown = Los datos del vehículo no dicen cuánto cabe ahí: mídalo y anote la cantidad.
Refusal-base-unknown = Los datos del vehículo no dan batalla ni ancho de vía: anótelos también.
Refusal-corner-misread = Las cuatro esquinas no están en un plano: una se leyó mal. Mida otra vez.
Refusal-wrong-position = A la palanca selectora le toca otra posición; la pantalla muestra cuál.
Refusal-too-early = La palanca selectora no estuvo bastante tiempo en la posición anterior; la pantalla muestra cuánto.
Refusal-no-such-job = El registro no tiene ningún trabajo con ese número.
Refusal-not-a-hash = Eso no es un SHA-256: 64 dígitos hexadecimales en minúsculas.
Refusal-nothing-to-undo = No hay nada que se pueda anular.
Refusal-too-long = El texto es demasiado largo: como mucho 200 caracteres.
Refusal-hidden-character = El texto contiene un carácter que no se ve pero cambia lo que se ve.
Refusal-no-such-event = Aún no ha ocurrido ningún evento con ese número; lo que venga se envía.
Refusal-too-many = Este trabajo ya tiene todas las notas, fotos y nombres del vehículo que caben: escriba el resto en otro sitio.
Refusal-too-fast = Eso es más de lo que una persona escribe en tan poco tiempo: espere unos segundos y anótelo otra vez.
Refusal-not-understood = Esa no es una petición de la interfaz.
Refusal-journal-full = El registro no se puede escribir, así que nada se puede asegurar. Libere espacio en el disco.
Refusal-band-decided = El rango que cuenta se decidió al empezar este trabajo. Si no es correcto, termine el trabajo, anote el aire y empiece otra vez.
Refusal-needs-adapter = Esos datos del vehículo van por el refrigerante del motor que da el vehículo; sin adaptador nadie lo lee. Elija datos del vehículo con la señal `spot` o `fluid`.
Refusal-no-such-sheet = El daemon no recibió datos del vehículo con ese nombre; `serve --sheets FOLDER` indica una carpeta con ellos.
Refusal-sheet-unconfirmed = Nadie ha confirmado aquí estos datos del vehículo: `standpipe sheet check FILE` dice cuáles, `standpipe sheet confirm FILE` los confirma.
Refusal-no-sheet = No se dieron datos del vehículo, así que no se puede ajustar el nivel de aceite: empiece otra vez con `--sheet FILE`.
Refusal-not-searching = No hay búsqueda de identificador en curso: `standpipe find` empieza una.
Refusal-no-such-candidate = Ese identificador no es el que va delante; la pantalla muestra cuál es.
Refusal-not-agreed = Ningún termómetro coincide con él todavía: primero mida el cárter de la caja y anote con `spot`.
Refusal-not-settled = Todavía puede ser más de un identificador: deje que se caliente más.
Refusal-ended = El trabajo ha terminado; `tell start` empieza uno nuevo.

## Shortfall

Shortfall-nothing-ran-out = No salió nada con `go`, así que falta aceite. Añada más, después mire otra vez a la temperatura correcta.
Shortfall-stays-dry = No salió nada con `go` aunque se llenó con más de lo que puede faltar. Deje de llenar: busque una fuga, otro tapón, revise si el vehículo está nivelado.
Shortfall-gush-only = Solo salió el primer chorro: falta aceite. Añada lo que falta y el extra, después mire otra vez.
Shortfall-ran-out-too-much = Salió mucho más de lo que sobraba: ¿tapón equivocado, o tubo de rebose suelto? Añada lo que falta, después mire otra vez.
Shortfall-amount-off = La cantidad que lleva no es la indicada, o el aceite viejo no se vació del todo. Vacíe del todo y llene con la cantidad indicada.
Shortfall-gauge-low = La varilla marca por debajo de la tabla: falta aceite. Añada lo que falta según la lectura, después lea otra vez.
Shortfall-gauge-high = La varilla marca por encima de la tabla: demasiado lleno. Extraiga algo, midiendo, después lea otra vez.
Shortfall-not-read-twice = No hay dos lecturas de la varilla dentro del rango que coincidan en 2 mm. Límpiela, métala hasta el tope, lea otra vez.
Shortfall-not-looked-again = Nadie ha vuelto a mirar el nivel de aceite después de la prueba en ruta. Nivele el vehículo otra vez y mire.
Shortfall-not-opened = El tapón de nivel no se abrió mientras el veredicto era `go`. Espere la próxima temperatura correcta y ajuste entonces el nivel de aceite.
Shortfall-opened-before-go = El tapón de nivel estaba abierto antes de que el veredicto fuera `go`. El aceite que salió entonces falta en el extra; ajuste otra vez el nivel de aceite a la temperatura correcta.
Shortfall-no-trickle = El chorro no era todavía un hilo fino al cerrar el tapón de nivel: demasiado lleno. Abra otra vez a la temperatura correcta y deje salir.
Shortfall-too-hot-before-trickle = El aceite estuvo muy caliente antes de que el chorro fuera un hilo fino. Déjelo enfriar, añada la cantidad indicada y ajuste otra vez el nivel de aceite.
Shortfall-closed-late = El tapón de nivel se cerró cuando el aceite ya estaba muy caliente: el nivel de aceite no es correcto. Déjelo enfriar y ajústelo otra vez.
Shortfall-closed-outside-go = El veredicto no era `go` al cerrar el tapón de nivel. Ajuste otra vez el nivel de aceite a la temperatura correcta.
Shortfall-precondition-open = Algo quedó sin confirmar: vea lo pendiente. Corríjalo y ajuste otra vez el nivel de aceite.
Shortfall-not-level = El vehículo no estaba nivelado. Nivélelo y ajuste otra vez el nivel de aceite.
Shortfall-started-warm = El vehículo estaba caliente al empezar el trabajo. Déjelo enfriar hasta que refrigerante y aire coincidan, después empiece otra vez.
Shortfall-sensor-untrusted = La temperatura no era fiable cuando importaba. Compárela con un termómetro en el cárter de la caja: aún no se sabe cuál falla.
Shortfall-link-lost-while-open = El adaptador se perdió con el tapón de nivel abierto. Ajuste otra vez el nivel de aceite con una conexión estable.
Shortfall-balance-open = Lo que salió no encaja con lo que se llenó. ¿Faltaba aceite antes, no se vació del todo, o hay una fuga? Vuelva a comprobar pronto.
Shortfall-unmeasured = Sin medir: lo vaciado, lo llenado o lo que salió. Las cantidades no pueden comprobar el nivel de aceite.
Shortfall-too-hot = El aceite estaba por encima del rango. Apague el motor, déjelo enfriar y empiece otra vez con el vehículo frío.
Shortfall-thin-evidence = Dicho por personas, y no hubo todo esto: dos lecturas dentro del rango, la última como mucho 2 min antes de cerrar, la nivelación del vehículo medida y un chorro de más de 15 s.
Shortfall-leak-seen = Se anotó una fuga y nadie ha mirado desde entonces. Repárela primero.
Shortfall-aborted = El trabajo se terminó a mano.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Salga. Después ponga { $shims }, y mida otra vez.
shims-both-rear = { $depth } debajo de los dos caballetes traseros
shims-both-front = { $depth } debajo de los dos caballetes delanteros
shims-both-left = { $depth } debajo de los dos caballetes izquierdos
shims-both-right = { $depth } debajo de los dos caballetes derechos
shim-front-left = { $depth } delante izquierda
shim-front-right = { $depth } delante derecha
shim-rear-left = { $depth } atrás izquierda
shim-rear-right = { $depth } atrás derecha
shims-each = { $parts } debajo de los caballetes
fill-amount = Llene con { $amount }: lo que salió, más el extra.
fill-first-amount = Mantenga apagado el motor. Primero llene con { $amount }.
fill-more-through-the-tube = Falta aceite: añada { $amount } por el tubo de la varilla.
fill-more-amount = Cierre a mano el tapón de nivel. Falta aceite: añada { $amount }.
draw-out-amount = Demasiado lleno: extraiga { $amount } por el tubo de la varilla, midiendo.
add-that-amount = Cierre a mano el tapón. Después añada { $amount }.
fill-here-amount = Falta aceite: añada { $amount } por esta abertura.
let-out-amount = Demasiado lleno: mantenga apagado el motor. Deje salir { $amount }, midiendo.
not-driven-amount = Prohibido conducir. Faltan { $amount }.
open-level-hole = Abra el orificio de nivel ahora, desde un lado. Gafas puestas.
watch-until-it-drips = Mire desde un lado. Diga cuando solo gotee.
be-ready-at-the-hole = Póngase debajo ya. Mantenga cerrado el orificio de nivel.
close-hole-not-right = Cierre el orificio de nivel. Esta no es la temperatura correcta.
close-hole-too-hot = Cierre el orificio de nivel. Muy caliente.
pipe-out-plug-in = Quite el tubo de rebose, ponga el tapón enseguida, a mano.
drain-and-measure = Vacíe el aceite. Mida cuánto sale y su temperatura.
fill-that-of-the-data = Llene con la cantidad de los datos del vehículo.
close-up-cap-on = Tapón de vaciado puesto a mano, tubo de la varilla tapado. Retire manguera de llenado y bandeja.
cap-on-check-adapter = Deje tapado el tubo de la varilla. Revise el conector del adaptador.
gauge-and-cloth-ready = Tenga listos varilla y paño. Deje tapado el tubo de la varilla.
fill-more-tube = Falta aceite: añada más por el tubo de la varilla.
cap-locked-tighten = Tubo de la varilla tapado y bloqueado. Motor apagado, después apriete el tapón de vaciado.
close-up-plugs = Ponga los tapones a mano. Retire la manguera de llenado y la bandeja.

## The result

level-low-by = Nivel de aceite ajustado, faltan { $amount }.
level-high-by = Nivel de aceite ajustado, sobran { $amount }.
known-to-within = Conocido a ±{ $amount }.
known-to = Conocido a { $amount }.
was-low-by-more = Faltaban más de { $amount }.
was-right-within = Era correcto, conocido a ±{ $amount }.
was-low-by = Faltaban cerca de { $amount }, ±{ $within }.
was-high-by = Sobraban cerca de { $amount }, ±{ $within }.
less-than-before = Lleva { $amount } menos que antes.
more-than-before = Lleva { $amount } más que antes.
as-much-as-before = Lleva lo mismo que antes.
mend-leak-first = Repare primero la fuga. Después ajuste otra vez el nivel de aceite.
find-why-it-stays-low = Averigüe por qué sigue faltando aceite antes de conducir. Después ajuste otra vez el nivel de aceite.
recheck-on-the-day = Vuelva a comprobar el nivel de aceite, en frío. El informe dice qué día.
fill-then-open-again = Añada { $amount }, después abra el tapón de nivel a la temperatura correcta. Deje salir hasta un hilo fino.
open-again-let-run = Vehículo nivelado, abra otra vez el tapón de nivel a temperatura correcta. Deje salir hasta un hilo fino.
put-right-and-fill = Corrija lo indicado abajo, añada { $amount }. Después ajuste otra vez el nivel de aceite.
put-right-and-set-again = Corrija lo indicado abajo. Después ajuste otra vez el nivel de aceite.

## What comes next: at most eight words

next-stands-level-hose = Caballetes, vehículo nivelado, manguera de escape.
next-drain-fill-port-first = Abrir tapón de llenado, solo después vaciar.
next-measure-how-it-stands = Medir si el vehículo está nivelado.
next-read-the-container = Leer el envase.
next-drain = Vaciar el aceite.
next-pipe-back-in = Reponer el tubo de rebose, a mano.
next-fill-and-circulate-again = Llenar otra vez, y otra vez hacer circular.
next-fill = Llenar con lo que salió, más el extra.
next-close-up-come-out = Poner ambos tapones, retirar bandeja, salir.
next-come-out-engine-starts = Salir. Solo después se enciende el motor.
next-brake-and-selector = Pisar el freno, palanca selectora por sus posiciones.
next-stay-out-until-near = Quedarse fuera hasta cerca de la temperatura correcta.
next-go-below-when-near = Ponerse debajo cerca de la temperatura correcta.
next-open-at-the-word = Esperar la señal para abrir tapón de nivel.
next-read-once-more = Limpiarla y leerla otra vez.
next-thin-thread-close = Hilo fino: cerrarlo a mano.
next-engine-off-jug-plugs = Motor apagado, leer jarra medidora, apretar tapones.
next-open-only-when-right = Abrir otra vez solo a la temperatura correcta.
next-let-it-cool = Dejar enfriar; la temperatura correcta vuelve.
next-right-plug-pipe-in = Motor apagado, leer jarra medidora. ¿Tapón correcto, tubo de rebose puesto?
next-look-again = Mirar otra vez a la temperatura correcta.
next-wipe-dry-look = Secarlo, salir, buscar fugas.
next-engine-on-look-for-drops = Motor encendido otra vez, buscar gotas.
next-lower-and-drive = Salir. Después bajan el vehículo y conducen.
next-drive-a-short-way = Bajar el vehículo, conducir un tramo corto.
next-finish = Terminar el informe.
next-check-again = Volver a comprobar, en frío, el día indicado.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Cierre el tapón de nivel si está abierto.
leave-the-engine = Deje el motor como está.
check-adapter-plug = Revise el conector del adaptador.
check-which-device = Revise qué dispositivo está indicado.
use-another-adapter = Use otro adaptador.
check-ignition-and-plug = Revise el contacto y el conector del adaptador.
wait-until-it-answers = Espere hasta que responda.
check-the-sheet = Revise los datos del vehículo.
none-yet = espera: { $signal }
vehicle-silent = vehículo mudo
adapter-silent = adaptador mudo
adapter-gone = adaptador perdido
no-adapter = sin adaptador
adapter-in-trouble = adaptador falla
signal-refused = rechazo: { $signal }
signal-missing = sin dato: { $signal }
name-reading = lectura
name-fluid = aceite
name-coolant = refrig.
name-spot = termómetro
name-display = visor
name-lamp = testigo

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } ronda, { $dwell } s en cada posición
    [many] { $rounds } de rondas, { $dwell } s en cada posición
   *[other] { $rounds } rondas, { $dwell } s en cada posición
}
move-on-round = cambie, ronda { $round } de { $rounds }
seconds-more-round = { $seconds } s más, ronda { $round } de { $rounds }
brake-begin-in = Mantenga pisado el freno. Empiece en { $position }.
brake-stay-in = Mantenga pisado el freno. Quédese en { $position }.
brake-back-to = Mantenga pisado el freno. Vuelva a { $position }.
brake-move-to = Mantenga pisado el freno. Pase a { $position }.
offer-begin-in = Está en { $position }: empezar
offer-back-in = Otra vez en { $position }
offer-now-in = Ya en { $position }

## Why, with numbers

head-fluid = Aceite
head-coolant = Refrigerante
head-sump = Cárter de la caja
head-display = Visor
head-lamp = Rango del testigo
signal-below-band = { $signal }: { $celsius } ± { $u }, por debajo del rango { $band }.
signal-above-band = { $signal }: { $celsius } ± { $u }, por encima del rango { $band }.
signal-inside-band = { $signal }: { $celsius } ± { $u }, dentro del rango { $band }.
fluid-about = Aceite a unos { $celsius } ± { $u }.
better-reading = Mejor: { $reading } (± { $u }).
runs-out-in-time = Necesita unos { $needs } min para salir, tiene { $window }.
runs-out-tight = Necesita unos { $needs } min para salir, tiene { $window }. Justo: tenga todo a mano, abra en cuanto llegue la señal.
runs-out-too-long = Necesita unos { $needs } min para salir, tiene { $window }. Cierre a tiempo, haga el resto en otra ronda.
warming-a-minute = Se calienta { $rate } por minuto.
cooling-a-minute = Se enfría { $rate } por minuto.

## The search for the identifier

identifier-found = Identificador: encontrado.
identifier-not-found = Identificador: no encontrado.
identifiers-asked = Identificador: { $asked } de unos { $planned } preguntados
identifier-stopped = Identificador: búsqueda parada.
identifier-is-left = Identificador: queda { $place }.
identifiers-may-be-it = Identificador: { $left } posibles.
it-shows = Muestra { $celsius }.
seconds-left = cerca de { $count } s más
minutes-left = cerca de { $count } min más

## Nothing is known

close-port-nothing-known = Cierre el tapón de nivel. No se sabe nada.
keep-port-closed-nothing-known = Mantenga cerrado el tapón de nivel. No se sabe nada.
leave-engine-nothing-known = Deje el motor como está. No se sabe nada.
keep-port-closed = Mantenga cerrado el tapón de nivel.
leave-gauge-nothing-known = Deje la varilla. No se sabe nada.
without-the-daemon = sin el daemon
daemon-does-not-answer = El daemon no responde. Sigue donde estaba cuando se inicie otra vez.
no-daemon-for = sin daemon, { $seconds } s
a-person-tells-it = Lo dice una persona.
last-reading-too-old = La última lectura es demasiado vieja. Vuelve sola.

## Names and counts on a screen

job-number = trabajo { $job }
data-unconfirmed = Nadie ha confirmado estos datos del vehículo. Con ellos no empieza ningún trabajo.
data-guessed = Hay datos del vehículo supuestos: el ± es mayor. El plan dice qué ayuda más.
look-again-in = Mire otra vez en unos { $minutes } min.
still-open = Pendiente: { $what }.
until-window-opens = hasta la temperatura correcta
until-window-closes = restantes a la temperatura correcta
until-read-again = hasta que haya que leer otra vez
until-back-in-band = para enfriar, motor apagado
without-a-reading = sin lectura
torque-pipe = tubo de rebose { $torque }
torque-check-plug = tapón de nivel { $torque }
torque-fill-plug = tapón de llenado { $torque }
told-by-people = dicho por personas: { $what }
signal-seconds-ago = { $signal }, hace { $count } s
signal-minutes-ago = { $signal }, hace { $count } min
step-of = paso { $step } de { $steps }: { $name }
step-prepare = preparar
step-drain = vaciar
step-fill = llenar
step-circulate = hacer circular
step-window = temp. correcta
step-run-out = salida de aceite
step-trickle = hilo fino
step-close = cerrar
step-torque = apretar
step-test-drive = prueba en ruta
step-recheck = volver a comprobar
amount-drained = vaciado { $amount }
amount-filled = llenado { $amount }
amount-ran-out = salió { $amount }
amount-should-run-out = debe salir { $amount }
amounts-at = { $amounts } (a { $celsius })

## The one huge word

word-wait = espere
word-go = ahora
word-too-hot = muy caliente
word-no-reading = sin lectura

## What can be told: buttons

offer-start-the-job = Empezar el trabajo
offer-another-kind-of-job = Otro tipo de trabajo
offer-choose-another-sheet = Elegir otros datos del vehículo
offer-hot-day-the-air-outside-in-the-shade = ¿Día caluroso? Aire afuera, a la sombra
offer-no-drive-is-felt-in-gear = Con la marcha puesta no tira
offer-it-differs-not-this-fluid = Es distinto: no es este aceite
offer-drained-how-much = Vaciado: cuánto
offer-filled-how-much = Llenado: cuánto
offer-it-was-in-and-more-came-out-how-much = Estaba puesto, y salió más: cuánto
offer-ran-out-how-much = Salió: cuánto
offer-it-still-flows = Sigue saliendo
offer-filled-more-how-much = Añadido: cuánto
offer-fluid-flows-from-the-check-port = Sale aceite del tapón de nivel
offer-nothing-runs-out = No sale nada
offer-it-only-drips = Solo gotea
offer-it-is-a-thin-thread-now = Ya es un hilo fino
offer-it-stands-at-the-lower-edge = Llega al borde inferior
offer-it-stands-below-the-edge-how-far = Queda por debajo del borde: cuánto
offer-it-runs-out-over-the-edge = Sale por encima del borde
offer-fluid-runs-out-there = Por ahí sale aceite
offer-drawn-out-how-much = Extraído: cuánto
offer-ran-out-from-the-jug-how-much = Salió, según la jarra medidora: cuánto
offer-plugs-tightened-to-the-torques = Tapones apretados a su par de apriete
offer-driven-no-leak-seen = Probado en ruta, no se ve fuga
offer-write-the-record = Terminar el informe
offer-check-port-closed-hand-tight = Tapón de nivel cerrado a mano
offer-fluid-flows-now-at-go = Sale aceite, con la señal
offer-it-leaks-damp-drops-runs = Hay fuga: húmedo, gotas, chorrea
offer-how-it-stands-measured = Nivelado del vehículo, medido
offer-the-gauge-shows = La varilla marca
offer-the-number-on-the-display = El número del visor
offer-a-thermometer-s-reading = Una lectura de termómetro
offer-it-stands-on-four-stands = Está sobre cuatro caballetes
offer-the-lift-is-known-to-be-level = El elevador está nivelado, se sabe
offer-the-exhaust-goes-outside = El gas de escape sale afuera
offer-the-brake-is-held = El freno está pisado
offer-the-cooler-pin-is-in = El pasador del enfriador está puesto
offer-rounds-done-selector-back-in-p-parking-brake = Rondas hechas, en P, freno de estacionamiento
offer-p-parking-brake-on-chocks = P, freno de estacionamiento, calzos
offer-the-fill-port-is-open = El tapón de llenado está abierto
offer-container-read-the-same-words = Envase leído: las mismas palabras
offer-the-pipe-is-in = El tubo de rebose está puesto
offer-both-plugs-in-tray-and-hose-away = Tapones puestos; bandeja y manguera de llenado fuera
offer-i-am-out-and-clear = Estoy fuera
offer-the-cooler-pin-is-out = El pasador del enfriador está quitado
offer-no-leak-seen = No se ve fuga
offer-covers-and-wheel-are-back-on = Cubiertas y rueda están montadas
offer-the-service-mode-is-on = El modo de servicio está puesto
offer-ready-is-off-key-below = Ready apagado, llave abajo
offer-it-is-dry = Está seco
offer-everybody-is-safe = Todos están a salvo
offer-it-started-cold = Se encendió en frío
offer-selector-in-the-position-of-the-look = Palanca en posición de comprobación
offer-it-is-so = Es así
offer-recheck-of-number = Volver a comprobar otro trabajo: número
offer-the-check-port-is-open-fluid-flows = Tapón de nivel abierto, sale aceite
offer-the-check-port-is-open-nothing-comes = Tapón de nivel abierto, no sale nada
offer-old-fluid-went-with-a-part = Se fue aceite viejo con una pieza
offer-kept-back-as-a-sample-how-much = Guardado como muestra: cuánto
offer-four-heights-front-left-right-rear-left-righ = Cuatro alturas: delante izq., der., atrás izq., der.
offer-a-remark-for-the-record = Una nota para el informe
offer-which-vehicle-plate-or-order = Qué vehículo: matrícula u orden
offer-write-the-record-now = Terminar ya el informe
offer-end-the-job-without-a-level = Terminar el trabajo sin nivel de aceite
offer-somebody-is-in-danger = Alguien está en peligro
offer-spilled-at-the-drain-by-eye-how-much = Derramado al vaciar, a ojo: cuánto
offer-spilled-while-filling-by-eye-how-much = Derramado al llenar, a ojo: cuánto
offer-spilled-at-the-check-port-by-eye-how-much = Derramado al comprobar, a ojo: cuánto
offer-it-is-the-fluids = Es el del aceite: { $place }
offer-lamp-too-cold = Testigo, demasiado frío: { $shows }
offer-lamp-right = Testigo, correcto: { $shows }
offer-lamp-too-hot = Testigo, muy caliente: { $shows }

## What is asked with a choice

choice-check = solo comprobar el nivel de aceite
choice-alone = cambio, una persona sola
choice-check-alone = solo comprobar, una persona sola

## On every screen

say-next = Después: { $what }
say-balance = Cantidades: { $what }
say-undo = Anular: { $what }
hold-to-tell = mantenga pulsado para confirmar
hold-longer = Mantenga pulsado un poco más: { $what }.
told = Anotado.
refused = Sin anotar: { $why }
not-told-no-contact = Sin anotar: no hay conexión.
let-be = Dejarlo así

## The terminal

term-open = pendiente: { $what }
term-twice = (dos veces)
term-more = m más
term-more-page = m más ({ $page } de { $pages })
term-other-seat = i otro puesto
term-undo = u anular { $what }
term-leave = q salir
term-press-again = { $what }: pulse { $key } otra vez.
term-nothing-to-take-back = Del último minuto no se puede anular nada.
term-like-amount = como 2.4L 22C
term-like-depth = como 3mm
term-like-level = cabeceo y balanceo, como 0.1deg -0.2deg
term-like-spot = como 38.5C tape; { $surfaces }
term-like-temperature = como 41C
term-like-number = su número: { $names }
term-then-enter = después Enter

## The page

page-connecting = conectando
page-nothing-known-yet = Todavía no se sabe nada.
page-pipe-nothing-known = El tubo de rebose: no se sabe nada
page-pipe-shows = El tubo de rebose: { $celsius }, rango { $low } a { $high }
page-positions = Posiciones de la palanca selectora
page-still-open = Pendiente
page-cautions = Precauciones
page-more = Más
page-elsewhere = En otro lugar
page-seat-inside = El puesto de dentro
page-seat-under = El puesto debajo del vehículo
page-jobs = Trabajos e informes
page-plan = Plan
page-data = Datos del vehículo
page-sound = Sonido
page-sound-on = El sonido está activado
page-sound-off = El sonido está apagado
page-volume = Volumen
page-vibration-on = La vibración está activada
page-vibration-off = La vibración está apagada
page-hear-all = Oírlos todos
page-tell = Anotar
page-close = Cerrar ventana
page-pair-title = Emparejar este navegador
page-pair-where = El código está en el terminal del daemon; standpipe page pair muestra uno nuevo.
page-code = Código
page-pair-clear = Esta página no está cifrada: quien escuche en esta red puede leerlo todo y tomar el código.
page-pair = Emparejar
page-no-contact = sin conexión
page-no-contact-for = sin conexión, { $seconds }
page-without-contact = sin conexión
page-no-daemon = Sin conexión con el daemon. Vuelve sola.
page-leave-engine = Deje el motor como está. No se sabe nada.
page-close-port-if-open = Cierre el tapón de nivel si está abierto. No se sabe nada.
page-how-much = Cuánto
page-how-warm = Temperatura que tenía
page-depth = Leído o medido
page-pitch = Cabeceo, morro arriba es positivo
page-roll = Balanceo, lado izquierdo arriba es positivo
page-temperature = Temperatura
page-thermometer-shows = El termómetro marca
page-held-to = Apoyado o apuntado a
page-in-your-words = Con sus palabras
page-which = Cuál
page-degrees = grados
page-no-job = Todavía ningún trabajo.
page-job = Trabajo { $job }, { $day }

## What can be taken back

undo-level = la inclinación medida
undo-drained = la cantidad vaciada
undo-filled = la cantidad llenada
undo-ran-out = la cantidad que salió
undo-gauge = la lectura de la varilla
undo-answer = la última respuesta
undo-selector = la palanca en { $position }
undo-trickle = el hilo fino
undo-drips = el goteo
undo-torqued = los tapones apretados
undo-test-driven = la prueba de ruta

## How a bay is

status-job = El trabajo { $job } está en curso.
status-adapter = Adaptador: { $what }
status-by-people = Adaptador: ninguno, todo lo comunican personas
status-port-shut = Adaptador: { $what }, su puerto está cerrado
status-vehicle = Vehículo: responde por { $what }
status-vehicle-silent = Vehículo: sin respuesta
status-reading = Última lectura: { $celsius }, hace { $age }
status-no-reading = Última lectura: ninguna
status-disk = Diario: { $free } libres en su disco
status-disk-silent = Diario: su disco no responde
status-clock = Reloj: { $time }
status-clock-behind = Reloj: { $time }, atrasado { $behind }
status-clients = Clientes: { $here } de { $most }, este incluido
status-running = Daemon: versión { $version }, en marcha desde hace { $time }

## Health

Health-healthy = Está todo lo que necesita un trabajo.
Health-waiting = Funciona y espera: todavía no se puede leer nada.
Health-needs-a-hand = Funciona, pero alguien tiene que hacer algo.

## Ailment

Ailment-no-adapter = El adaptador no está o no responde.
    .remedy = Revise su conector y su cable; vuelve solo.
Ailment-no-vehicle = El vehículo no responde.
    .remedy = Revise que el adaptador esté firme en la toma.
Ailment-no-reading = No se lee la temperatura de la comprobación.
    .remedy = Espere unos segundos; después revise el identificador en los datos.
Ailment-disk-full = El disco del diario está casi lleno.
    .remedy = Libere espacio antes del próximo trabajo.
Ailment-disk-slow = El disco del diario es lento: hay eventos esperando.
    .remedy = Use otra tarjeta u otro disco para el diario.
Ailment-clock-behind = El reloj va por detrás de lo que ya tiene el diario.
    .remedy = Ponga en hora el reloj: los informes llevan su fecha.

## ClosureCause

ClosureCause-opened-early = El tapón se abrió antes de la temperatura correcta: salió también lo que habría tomado el convertidor. Llene y ajuste otra vez.
ClosureCause-engine-stopped = El motor se paró con el tapón abierto: salió también lo que vuelve del convertidor. Ajuste otra vez.
ClosureCause-wrong-temperature = Una cantidad se anotó sin su temperatura, o con una falsa: el aceite caliente ocupa más. Mida calor y cantidad a la vez.
ClosureCause-was-low-before = Antes del trabajo faltaba aceite: parte del extra lo compensó. Pregunte desde cuándo y busque una fuga vieja.
ClosureCause-not-all-caught = No se recogió todo lo que salió. Anote lo derramado, a ojo.
ClosureCause-leak = El aceite sale por otro sitio. Mire tapones, junta del cárter y tubos del enfriador antes de que salga.
ClosureCause-was-high-before = Antes del trabajo llevaba demasiado aceite.
ClosureCause-tube-not-seated = El tubo de rebose no está hasta el tope: salió aceite por el lado y falta. Apriételo a su par y ajuste otra vez.
ClosureCause-drained-not-fully = Se vació menos de lo que esperan los datos: queda más aceite viejo. El nivel no depende de eso.

## Cause

Cause-temperature = Al cerrar, el aceite no estaba en el centro del rango.
Cause-tilt = El vehículo no estaba del todo nivelado.
Cause-warming = El aceite se calentaba mientras goteaba: sobre el borde quedó más de lo normal.
Cause-amount = Lo llenado difiere de la cantidad indicada, según las medidas.
Cause-guess = Lo supuesto en los datos del vehículo.
Cause-residual = La película sobre el borde difiere de la del hilo fino normal.

## Fault

Fault-code-stored = El vehículo guarda un código de fallo.
Fault-not-an-adapter = Lo que responde en este puerto no es un adaptador de este tipo.
Fault-adapter-fault = El adaptador indica un fallo propio.
Fault-bus-fault = El bus del vehículo perturba el intercambio.
Fault-no-answer = Una unidad de control no responde a una petición.
Fault-declined = Una unidad de control rechaza una petición.
Fault-undecodable = Una respuesta no se pudo descifrar, así que no fue lectura.
Fault-units-disagree = Las unidades de control dan valores distintos de lo mismo.
Fault-avoided = La conexión se cortaba cada vez que se enviaba; ahora se envía al final y pocas veces.
Fault-wrong-sender = Respondió una unidad de control que no fue preguntada.
Fault-journal-slow = El disco va lento.
Fault-journal-failed = No se puede escribir el diario.
Fault-journal-repaired = El diario estaba dañado; lo legible sigue y se guarda el archivo dañado.
Fault-journal-damaged = Algo en el diario no es lo que se escribió.

## Way

Way-drained = De lo que se vació.
Way-filled = De lo que debía entrar.
Way-ran-out = De lo que salió por el tapón de nivel.

## LampState

LampState-too-cold = Por debajo del rango.
LampState-right = Dentro del rango.
LampState-too-hot = Por encima del rango.

## Step

Step-prepare = Prepare: borriquetas, nivelado, ventilación, herramientas, recipientes; el tapón de llenado se abre antes de vaciar.
Step-drain = Vacíe y mida lo que salió y a qué temperatura.
Step-fill = Llene lo que salió y el extra de los datos del vehículo.
Step-circulate = Arranque el motor; freno pisado, mueva el selector por sus posiciones.
Step-window = Espere la temperatura correcta.
Step-run-out = Abra el tapón de nivel y deje salir el exceso.
Step-trickle = El chorro es ya un hilo fino.
Step-close = Cierre el tapón de nivel.
Step-torque = Apriete los tapones a los pares de los datos del vehículo.
Step-test-drive = Conduzca un trecho corto, busque fugas.
Step-recheck = Días después compruebe el nivel otra vez, desde frío.

## Hint

Hint-four-stands = Cuatro borriquetas o un elevador adecuado.
Hint-inclinometer = Inclinómetro, teléfono o regla.
Hint-exhaust-hose = Manguera de escape.
Hint-measuring-jug = Jarra medidora.
Hint-thermometer = Termómetro.
Hint-tray = Bandeja.
Hint-gloves-and-glasses = Guantes, gafas.
Hint-new-fluid = Aceite nuevo.
Hint-pump = Bomba, o embudo con manguera.
Hint-empty-jug = Jarra medidora vacía.
Hint-lamp = Lámpara.
Hint-torque-wrench = Llave dinamométrica.
Hint-new-seals = Juntas nuevas, como indica el fabricante.
Hint-its-own-gauge = La varilla propia del vehículo.
Hint-cloth = Trapo sin pelusa.
Hint-fill-stated = Llene la cantidad indicada, medida.
Hint-fill-there = Llene por la abertura donde se mira: lo que salió.
Hint-only-drips = Solo gotea.
Hint-close-by-hand = Ciérrelo a mano.
Hint-no-port-here = Aquí no se abre ningún tapón: la varilla se lee en su tubo, en mm.
Hint-read-twice = Límpiela, métala hasta el tope, sáquela, léala; luego otra vez.
Hint-two-must-agree = Valen dos que coincidan en 2 mm. Sin limpiar o sin llegar al tope no dice nada.
Hint-clean-the-cap = Limpie primero alrededor de la tapa; póngala otra vez entre dos miradas.
Hint-air-springs = Modo de elevación activado, la carrocería sujeta por borriquetas o elevador antes de entrar debajo.
Hint-orange = Naranja es alta tensión: solo para personal formado, nunca se corta ni se mueve.
Hint-on-a-lift = En elevador: P, freno de mano, salga. Súbalo, bájelo sobre los seguros; nadie debajo mientras se mueve.
Hint-sit-down-first = Siéntese antes de que el otro entre debajo; salga solo cuando abajo esté libre.
Hint-wash-hands = Guantes puestos, lávese con jabón, cambie la ropa empapada.
Hint-photo-if-black = Negro, quemado, con metal: una foto, y el cliente decide antes de seguir.
Hint-never-what-ran-out = Solo aceite nuevo, nunca el que salió.
Hint-out-of-a-pit = Fuera del foso hasta que toque, con la manguera puesta.
Hint-wipe-around = Limpie primero alrededor del tapón, y la manguera y la bomba.
Hint-new-washer = La junta nueva va al tapón mientras sale.
Hint-fan-may-start = El ventilador puede arrancar solo con el motor parado: manos fuera.
Hint-wipe-while-hot = En caliente, limpie con trapo seco; rocíe solo en frío, motor parado.
Hint-all-but-the-stands = Todo menos las borriquetas, hasta que arranque el motor.
Hint-brake-any-time = El freno en cualquier momento; las posiciones solo con el motor en marcha.
Hint-jug-may-wait = La jarra se puede leer después.

## The report: what the customer reads

date = { $day } de { $month ->
    [1] enero
    [2] febrero
    [3] marzo
    [4] abril
    [5] mayo
    [6] junio
    [7] julio
    [8] agosto
    [9] septiembre
    [10] octubre
    [11] noviembre
   *[12] diciembre
} de { $year }
report-title = Informe del aceite de la transmisión
report-of-job = Trabajo { $job }, { $day }
times-from-to = { $from } a { $to }
times-since = desde { $from }
label-and-value = { $label }: { $value }
job-not-ended = El trabajo no está terminado.
what-was-done = ¿Qué se ha hecho?
is-it-right = ¿Está bien el nivel de aceite?
may-i-drive = ¿Puedo conducir?
when-to-come-again = ¿Cuándo vuelvo?
what-it-costs = ¿Cuánto cuesta?
what-you-should-know = Qué más debe saber
answer-yes = Sí.
answer-probably = Probablemente.
answer-no = No.
done-changed = Se cambió el aceite de la transmisión: salieron { $drained }, entraron { $filled } de aceite nuevo.
done-only-drained = Salieron { $drained } de aceite. No se anotó aceite nuevo.
done-only-filled = Entraron { $filled } de aceite nuevo.
done-nothing-entered = No se anotó ninguna cantidad de aceite.
done-checked = Se comprobó el nivel de aceite de la transmisión.
done-checked-again = Se volvió a comprobar el nivel de aceite tras el trabajo { $job }.
done-fresh-share = El { $percent } % del aceite que lleva es nuevo.
drive-not-before-the-end = No antes de que termine el trabajo.
drive-not-said = Este informe no lo dice. Pregunte al taller antes de conducir.
again-not-right = Todavía no está listo. El taller tiene que ajustar el nivel de aceite.
days-and = { $days } y { $last }
again-no-day = No se indicó ningún día.
again-on = { $days }. Déjelo aparcado la noche anterior: el nivel se comprueba en frío.
customer-other-cause = El nivel de aceite era correcto: el fallo tiene otra causa. El aceite nuevo solo no lo arregla.
customer-driven-low = Se condujo con poco aceite. Eso puede haberla gastado.
customer-ask-history = Faltaba aceite, pero no se ve ninguna fuga. ¿Quién trabajó en él por última vez?
customer-filled-wrong = Antes de este trabajo llevaba demasiado aceite.
customer-worn = El aceite viejo era negro, quemado o con metal: hay desgaste interior. Pregunte qué aconseja el taller.
customer-water-in = El aceite viejo era lechoso: entró agua o refrigerante. Hay que encontrar la causa.
customer-codes = El vehículo guarda códigos de fallo: { $codes }. Pregunte al taller qué significan.
customer-guessed = Algunos datos del vehículo son supuestos. Por eso el nivel se conoce con menos exactitud.
label-not-confirmed = Sin confirmar
label-vehicle = Vehículo
label-vin = Número de bastidor (VIN)
label-odometer = Cuentakilómetros
label-date = Cuándo
label-workshop = Taller
label-technician = Técnico
label-fluid = Aceite
label-batch = Lote en el envase
label-cost = Coste
sign-technician = Técnico, fecha
sign-customer = Cliente, fecha

## The report: what the next technician reads

for-the-next-technician = Para el próximo técnico
label-guessed = Supuesto en los datos del vehículo
guesses-cost = Conocido a ±{ $with } con lo supuesto, a ±{ $without } sin ello.
guess-that-helps-most = Lo que más ayudaría: { $what }. Entonces ±{ $within }.
label-recheck = Nueva comprobación
recheck-compared = Quedó { $left }, se halló { $found }: cambió { $change }, ±{ $within }.
recheck-agrees = Eso cabe en lo que se conoce de ambos.
recheck-differs = Eso es más de lo que ambos son inexactos.
recheck-not-comparable = No se pueden comparar los dos.
label-told-before = Queja antes
label-told-after = Con el nivel ajustado
label-level-error = Error de nivel
level-error-is = { $amount }, ±{ $within } (k = 2); { $height } en el tubo de rebose. Más es demasiado.
label-band = Temperatura correcta
band-by = { $low } a { $high }, leído por: { $signal }
label-torques = Pares de apriete
as-the-maker-says = como indica el fabricante
label-data = Datos del vehículo
label-link = Leído mediante
entry-all-by-people = Sin adaptador: todo lo anotaron personas.
label-readings = Lecturas
readings-read = { $count }, de { $age } ms como mucho.
readings-told = { $count }, anotadas por personas.
readings-apart = Con { $seconds } s entre ellas como mucho.
readings-pauses = Pausas de más de 5 s: { $count }, la mayor { $seconds } s.
readings-losses = Contacto perdido: { $count } ×.
readings-restarts = Programa iniciado de nuevo: { $count } ×.
readings-known-at-closing = Incertidumbre típica al cerrar: { $u }.
section-wrong = Qué estaba mal y qué hacer
section-temperature = Temperatura en el tiempo
section-budget = Error de nivel y de qué se compone
section-balance = Cantidades, como se midieron
section-codes-and-fluid = Códigos de fallo y aceite viejo
section-old-fluid = Aceite viejo
section-steps = Pasos
section-told = Qué se anotó y cuándo
section-on-the-way = Qué pasó por el camino
section-stops = Avisos que se mostraron
section-photos = Fotos
section-cautions = Precauciones que se mostraron
budget-cause = Causa
budget-amount = Cantidad
budget-u = Incertidumbre típica
budget-together = En total, ± con k = 2
balance-drained = vaciado
balance-filled = llenado
balance-ran-out = salió
balance-with-parts = con piezas
balance-spilled = derramado, a ojo
balance-kept = guardado
balance-expected = Debe salir
balance-closure = Salió menos lo que debía
amount-and-uncertainty = { $amount }, incertidumbre típica { $u }
balance-fresh = Aceite nuevo
balance-waste = Aceite usado
codes-before = Códigos de fallo al empezar
codes-after = Nuevos durante el trabajo
codes-none-told = el vehículo no indicó ninguno
codes-nobody-read = sin leer: no había adaptador
old-fluid-not-entered = Nadie anotó cómo se veía.
state-open = sin empezar
state-started = empezado
state-done = hecho
state-failed = salió mal
state-undone = retirado
who-under = abajo
who-inside = dentro
who-vehicle = vehículo
who-person = una persona
entry-at = { $what } a { $celsius }
entry-spilled = Derramado { $amount }, a ojo.
as-the-data-says = como dicen los datos del vehículo
entry-kept = Guardado { $amount }
entry-level = Medido: frente { $pitch }, lado izquierdo { $roll }
entry-corners = Alturas: delante { $front }, detrás { $rear }
entry-air = Aire exterior
engine-idling = El motor va al ralentí
engine-stopped = El motor está parado
entry-below-edge = { $depth } bajo el borde inferior
entry-gauge = La varilla marca { $depth }
entry-confirmed = Confirmado
entry-selector = Selector
entry-photo = Foto
entry-recheck-of-job = Nueva comprobación del trabajo
entry-identifier = Confirmado como identificador del aceite
entry-leak = Fuga
entry-alarm = Alarma
entry-ended-by-hand = Terminado a mano
entry-remark = Nota
entry-taken-back = Retirado
entries-before = antes { $count } más, en el diario
entries-of-thermometers = Lecturas de termómetro: { $count }, en el gráfico
more-in-the-journal = { $count } más en el diario
column-time = Hora
column-step = Paso
column-state = Estado
column-by = Por
column-what = Qué
journal-range = Sucesos { $first } a { $last } del diario. Horas en { $zone }.
label-seal = Sello
seal-is-checked-by = { $command } muestra si el registro fue cambiado.
doubt-unread = El suceso { $event } no se puede leer: { $why }.
doubt-changed = Los sucesos { $first } a { $last } no están como se escribieron: faltan o fueron cambiados.
plot-no-temperature = No se registró ninguna temperatura.
plot-from-to = De { $from } a { $to }.
plot-was-right = La temperatura fue correcta (rayado) del minuto { $from } al { $to }.
plot-never-right = La temperatura nunca fue correcta.
plot-port-was-open = El tapón de nivel estuvo abierto del minuto { $from } al { $to }, cerrado a { $celsius }.
plot-axis = minutos desde el inicio; { $unit }
plot-port-open = abierto
pipe-drawn = El tubo de rebose: temperatura correcta { $low } a { $high }.
pipe-drawn-closed = El tubo de rebose: temperatura correcta { $low } a { $high }. Cerrado a { $celsius }.
offer-odometer = El cuentakilómetros, con unidad
offer-technician = Quién hizo el trabajo
offer-workshop = Qué taller
offer-fluid = El aceite, como dice el envase
offer-batch = El lote en el envase
offer-cost = Cuánto cuesta, con moneda

## The board of many bays

bay-is-quiet = Aquí no hay ningún trabajo en marcha.
bay-is-not-heard = No se recibe nada. Vaya a mirar.
board-empty = En { $broker } aún no se recibe ningún puesto.
board-broker-lost = No se recibe { $broker }. Lo que se ve aquí es antiguo.
board-keys = Escriba para buscar. Ctrl-C sale.
board-sought = Buscar: { $text }

## The plan

plan-title = Plan: { $sheet }
plan-buy = Comprar
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = Llenar
plan-fill-says = unos { $amount }: { $parts }
plan-one-drain = un vaciado de { $amount }
plan-drains = { $count } vaciados de { $amount }
plan-for-parts = { $amount } por filtro, enfriador y cárter
plan-the-extra = el extra
plan-hand-in = unos { $amount }, para entregar
plan-fresh = Aceite nuevo después
plan-at-best = { $percent } % como mucho
plan-runs-out = Saldrá
plan-runs-out-says = unos { $amount } a { $celsius }, si el nivel era correcto antes
plan-trickle = Hasta el hilo fino
plan-trickle-says = unos { $seconds } s tras abrir: una guía, nunca una decisión
plan-unknown = no se puede decir
plan-hot = En lugares calurosos
plan-hot-says = { $low } a { $high }, desde { $air } fuera: lo muestra el vehículo o se anota al empezar
plan-opens = Llega la temperatura correcta
plan-opens-says = { $minutes } tras un arranque en frío a { $air }: un coche normal, puede errar hasta el doble o la mitad
plan-lasts = Sigue correcta
plan-lasts-says = { $minutes }, con la misma duda
plan-minutes = { $low } a { $high } min
plan-hot-day = Día caluroso
plan-day-second-band = Hoy vale el rango para lugares calurosos. Si el vehículo no muestra el aire exterior, anótelo al empezar.
plan-day-below-second = El aceite empieza cerca del rango: la temperatura correcta llega pronto y dura poco. Empiece con el fresco de la mañana. El rango para lugares calurosos aún no vale.
plan-day-no-second = El aceite empieza cerca del rango: la temperatura correcta llega pronto y dura poco. Empiece con el fresco de la mañana. Los datos no tienen rango para lugares calurosos; el fabricante quizá sí.
plan-degree = Un grado
plan-degree-falls = { $amount } por cada { $degree } de más al cerrar: cerrado frío queda demasiado lleno, caliente queda bajo
plan-degree-rises = { $amount } por cada { $degree } de más al cerrar: cerrado frío queda bajo, caliente queda demasiado lleno
plan-left-out = No incluido
plan-leaves-out-slope = cómo cambia la pendiente de los datos fuera del rango, y dónde se retiene o suelta aceite; la dilatación está en esa pendiente
plan-leaves-out-thermostat = aceite que un termostato retiene o suelta al calentarse: solo cuenta la dilatación
plan-tilt = Una inclinación
plan-tilt-says = { $pitch } por 1° de frente alto, { $roll } por 1° de lado izquierdo alto: no pase de { $allowed }
plan-not-confirmed = Nadie ha confirmado
plan-before-any-job = { $what }: ningún trabajo empieza antes de confirmarlo
plan-guessed = Supuesto
plan-guess-costs = { $what }: cuesta { $amount } del ±
plan-guess-is-free = { $what }: no cuenta en el ±
plan-off = Qué cuesta desviarse
plan-off-by = Desvío
plan-off-pipe = En el tubo de rebose
plan-off-temperature = temperatura { $by }
plan-off-nose = frente alto { $by }
plan-off-left = lado izquierdo alto { $by }
plan-still-right = todavía bien
plan-too-much = demasiado
plan-checklist = Lista
plan-at-hand = A mano
plan-beware = Cuidado
plan-out-of-order = Se puede anotar fuera de orden
plan-stop-rules = Cuándo parar, en cualquier paso
who-either = cualquiera de los dos
line-exchanges = Vacíe y llene { $count } veces. Entre ellas, haga girar el motor por las posiciones.
line-selector = { $positions }: { $dwell } s en cada una, { $rounds } rondas
line-look = Mirar: { $look }
line-looks = Mire { $count } veces, una tras otra.
line-look-number = Mirada { $number }: { $look }
line-wave = Una ola pequeña cada { $seconds } s no es el exceso: mire entre dos.
line-stand = No nivelado: { $how }. Mídalo, a ojo no vale.
stand-nose-up = { $degrees } frente alto
stand-nose-down = { $degrees } frente bajo
stand-left-up = { $degrees } lado izquierdo alto
stand-right-up = { $degrees } lado derecho alto
look-idling = al ralentí
look-engine-off = motor parado
look-ready-off = READY apagado
look-in-position = en { $position }
look-after = tras { $seconds } s
look-between = de { $from } a { $to } s tras parar
look-in-band = a la temperatura correcta
sign-thread = el exceso sale hasta el hilo fino
sign-first-drips = seco al principio; gotea antes del final del rango
sign-drips = sale hasta que solo gotea
sign-below-edge = el aceite está de { $low } a { $high } bajo el borde inferior
sign-at-edge = el aceite está en el borde inferior
sign-chart = la varilla marca lo que permite la tabla
sign-amounts = las cantidades son correctas
look-then-add = cerrado, luego { $amount } más
