### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = Escolha o veículo. Depois comece o trabalho.
Advice-prepare-vehicle = Ponha em quatro cavaletes ou num elevador. Veículo nivelado, mangueira de escapamento para fora.
Advice-shim-stands = Saia. Depois nivele o veículo nos cavaletes e meça de novo.
Advice-park = P, freio de estacionamento acionado. Calços nas rodas que ficam no chão.
Advice-read-container = Leia a embalagem em voz alta junto aos dados do veículo. As mesmas palavras?
Advice-open-fill-port = Abra primeiro o bujão de abastecimento. Só depois drene o óleo.
Advice-cool-before-drain = Deixe esfriar antes de drenar o óleo. Acima de 60 °C queima.
Advice-switch-ready-off = Apague o Ready, dê a chave a quem está embaixo. O motor pode dar a partida sozinho.
Advice-drain = Drene o óleo, tire também o tubo de transbordo. Meça quanto sai e a temperatura.
Advice-drain-again = Motor parado, mantenha fechados os dois bujões. Depois drene e abasteça mais uma vez.
Advice-put-pipe-in = Ponha o tubo de transbordo com a mão, até o batente. Apertado demais, trinca.
Advice-was-pipe-out = Saiu pouco: tirou o tubo de transbordo? Depois ponha de volta.
Advice-is-pipe-in = O tubo de transbordo está no lugar? Sem ele o cárter do câmbio esvazia.
Advice-fill = Abasteça com o que saiu, mais o extra.
Advice-close-up = Ponha os dois bujões com a mão. Retire a mangueira de abastecimento e a bandeja.
Advice-put-pin-in = Ponha o pino do radiador de óleo. Só depois vem a partida.
Advice-lead-exhaust = Ponha a mangueira de escapamento, com a ponta para fora. Portas abertas não bastam.
Advice-check-exhaust = Muito tempo em marcha lenta: a mangueira de escapamento está posta? Dor de cabeça: saia primeiro.
Advice-come-out = Saia. Diga quando estiver fora.
Advice-stay-out = Fique fora. Vão dar a partida, a alavanca seletora se move.
Advice-wait-for-clear = Espere. Continue só quando quem está embaixo disser que está fora.
Advice-start-engine = Dê a partida. Mantenha o pé no freio, fique em P.
Advice-hold-brake = Ponha o pé no freio e mantenha. Alavanca seletora em P.
Advice-cycle-selector = Mantenha o pé no freio. Passe a alavanca seletora pelas posições.
Advice-switch-mode-on = Ative o modo de serviço, tire o Start-Stop. Diga quando estiver feito.
Advice-confirm-open = Há algo pendente. Corrija, depois confirme.
Advice-stay-clear = Fique fora. A temperatura certa vem mais tarde.
Advice-keep-idling = Mantenha em marcha lenta, em P. Solte os pedais, deixe tudo como está.
Advice-may-stop = O motor já parou sozinho neste ponto antes. Deixe tudo como está.
Advice-keep-idling-until-closed = Mantenha em marcha lenta até dizerem de baixo que está fechado.
Advice-be-ready = Entre embaixo já. Mantenha fechado o bujão de nível.
Advice-look-position = Mantenha o pé no freio. Alavanca seletora na posição da verificação.
Advice-settle = Fique fora até o óleo assentar. Deixe tudo como está.
Advice-open-port = Abra o bujão de nível agora, pelo lado. Óculos postos.
Advice-watch-stream = Olhe pelo lado. Diga quando for um fio fino.
Advice-watch-drips = Olhe pelo lado. Diga quando vierem as primeiras gotas.
Advice-open-port-off = Mantenha o motor parado. Abra o bujão agora, pelo lado.
Advice-watch-off = Motor parado. Olhe: diga quando for um fio fino.
Advice-look-at-edge = Veja até onde o óleo chega. Diga na borda, ou quanto abaixo.
Advice-read-gauge = Limpe a vareta, empurre até o batente. Diga os milímetros.
Advice-read-again = Limpe, leia de novo. Duas leituras devem coincidir em 2 mm.
Advice-draw-out = Cheio demais. Retire um pouco pelo tubo da vareta, medindo.
Advice-let-some = Cheio demais. Deixe sair um pouco até o nível do óleo certo.
Advice-still-flowing = Ainda sai depois de 15 s? Diga; se não, feche.
Advice-close-port = Feche já, com a mão.
Advice-close-port-wait = Feche o bujão de nível. Esta não é a temperatura certa.
Advice-close-port-cool = Feche o bujão de nível. Muito quente.
Advice-close-too-much = Feche já. Saiu demais: bujão errado?
Advice-stop-and-cool = Pare o motor. Deixe esfriar, depois marcha lenta de novo.
Advice-stop-now = Pare o motor já. P.
Advice-stop-engine = Pare o motor. Tire a chave, fique com ela na mão.
Advice-keep-off = Mantenha o motor parado.
Advice-keep-closed = Mantenha fechado. Espere primeiro o motor parar.
Advice-stay-away = Fique fora. Primeiro precisa esfriar.
Advice-answer = Responda: está tudo bem?
Advice-call-below = Chame quem está embaixo. Sem resposta: pare o motor, vá ver.
Advice-charge-battery = Bateria fraca. Pare o motor, saia, depois carregue a bateria.
Advice-fill-first = Mantenha o motor parado. Abasteça primeiro com o que falta.
Advice-fill-more = Feche com a mão o bujão de nível. Falta óleo: complete com mais.
Advice-fill-to-edge = Motor parado, bujão aberto: abasteça até sair por ali. Meça.
Advice-add-amount = Feche o bujão com a mão. Depois complete com a quantidade dos dados do veículo.
Advice-fill-here = Falta óleo. Complete com mais por esta abertura.
Advice-hose-out = Tire a mangueira de abastecimento. Diga o que sai: jato, gotas ou nada.
Advice-look-why-low = Pare de abastecer. Procure um vazamento ou um bujão errado.
Advice-drain-wrong = Óleo errado: mantenha o motor parado. Drene, abasteça com o certo.
Advice-read-jug = Leia primeiro a jarra medidora: diga quanto saiu.
Advice-let-out = Cheio demais: mantenha o motor parado. Deixe sair o que sobra, medindo.
Advice-soak-up = Recolha com absorvente. Limpe o escapamento quando estiver frio.
Advice-check-adapter = Feche com a mão o bujão de nível. Depois verifique o conector do adaptador.
Advice-ask-engine = Motor em marcha lenta, sem luz vermelha? Então diga.
Advice-say-engine = O motor está parado? Diga o que ele faz.
Advice-close-port-engine = Feche o bujão de nível. Ninguém confirma o motor em marcha lenta.
Advice-feel-pan = Parado 8 h, cárter do câmbio frio como o ar? Então confirme.
Advice-read-inside = O que o veículo mostra do óleo do câmbio? Diga.
Advice-push-adapter = Deixe o motor como está. Encaixe o adaptador de novo.
Advice-check-sensor = Mantenha fechado. Meça o cárter do câmbio sobre fita fosca.
Advice-tighten = Deixe os dois bujões no lugar. Motor parado, depois aperte.
Advice-take-pin-out = Tire o pino do radiador de óleo com o motor parado. Se ficar, superaquece.
Advice-wipe-dry = Seque com um pano. Saia, diga que está fora.
Advice-look-for-leaks = Depois de 5 min em marcha lenta, procure gotas.
Advice-look-for-drops = Procure gotas em volta dos bujões.
Advice-mend-leak = Motor parado. Conserte primeiro o vazamento.
Advice-refit = Monte coberturas e roda. Já no chão, aperte as porcas com o torque.
Advice-test-drive = Baixe o veículo. Dirija com calma um trecho curto, depois procure vazamentos.
Advice-not-driven = Proibido rodar. Falta óleo.
Advice-finish = Termine o relatório.
Advice-recheck = Verifique de novo o nível do óleo, a frio. O relatório diz o dia.
Advice-set-again = O nível do óleo não está ajustado. Veja o relatório, depois olhe de novo.
Advice-wait = Dentro ainda não há nada a fazer. Deixe tudo como está.
Advice-fresh-air = Saiam todos para o ar livre. Peçam ajuda.
Advice-get-out = Saiam todos. Chamem os bombeiros.
Advice-engine-off-caught = Pare o motor já, P, mantenha o pé no freio. Peça ajuda.
Advice-hold-still = Fique imóvel: ninguém puxa, ninguém baixa o veículo. A ajuda vem.
Advice-cool-burn = Água corrente fresca na queimadura, 20 min. Sem gelo.
Advice-help-burn = Ajude a sair. Feche o bujão de nível pela lateral, depois pare o motor.

## Caution

Caution-maker-first = Siga o fabricante, as normas locais e a prática autorizada onde diferirem.
Caution-four-stands = Quatro cavaletes, ou um elevador nas travas. Macaco sem cavaletes mata.
Caution-hot-fluid = Luvas, mangas, óculos postos. Óleo, cárter do câmbio e escapamento queimam.
Caution-running-engine = Motor funcionando. Afaste cabelo e mangas de correias, ventilador e eixos.
Caution-brake-held = Fique fora. Pé no freio, rodas livres ou calçadas.
Caution-ventilation = Gás de escapamento mata. Mangueira de escapamento posta, ponta para fora: portas abertas não bastam.
Caution-waste-oil = Recolha num recipiente próprio. Entregue como óleo usado.
Caution-overheating = Muito quente. Pare o motor já, alavanca seletora em P, longe até esfriar.
Caution-low-voltage = Bateria fraca: luzes e ventilador apagados. Carregue só com o motor parado e todos fora.
Caution-long-idling = Muito tempo em marcha lenta. Mangueira de escapamento posta, ponta para fora? Dor de cabeça em alguém: saiam primeiro.
Caution-lost-while-open = Sem leitura, bujão de nível aberto. Feche com a mão; mantenha o motor em marcha lenta, depois verifique o conector do adaptador.
Caution-fill-port-first = Primeiro o bujão de abastecimento. Se ele prender depois de drenar, o veículo fica imóvel.

## Precondition

Precondition-on-stands = Em quatro cavaletes ou elevador, piso duro e plano, sacudido, firme.
    .short = cavaletes
Precondition-vehicle-level = O veículo está nivelado.
    .short = veículo nivelado
Precondition-exhaust-outside = Mangueira de escapamento posta, ponta para fora; ou o veículo ao ar livre.
    .short = mangueira de escapamento
Precondition-brake-held = O freio está pisado enquanto a alavanca seletora se move.
    .short = freio pisado
Precondition-cooler-bypass = A passagem do radiador de óleo está aberta, presa com o pino.
    .short = pino do radiador de óleo
Precondition-selector-cycled = A alavanca seletora passou pelas posições conforme os dados do veículo.
    .short = alavanca seletora
Precondition-filled = Foi abastecido com óleo novo, com o extra.
    .short = abastecimento
Precondition-started-cold = Partida a frio: arrefecimento e ar coincidiam, ou ficou parado 8 horas.
    .short = partida a frio
Precondition-engine-running = O motor está funcionando.
    .short = motor
Precondition-engine-idling = Motor em marcha lenta, dentro da faixa dos dados do veículo.
    .short = marcha lenta
Precondition-engine-off = O motor está parado, como pede esta verificação.
    .short = motor parado
Precondition-settled = O óleo assentou pelo tempo dos dados do veículo.
    .short = óleo assentado
Precondition-in-position = A alavanca seletora está na posição da verificação.
    .short = posição da verificação
Precondition-standing-still = O veículo está imóvel.
    .short = veículo imóvel
Precondition-parked = Alavanca seletora em P, freio de estacionamento acionado e firme. Calços nas rodas que ficam no chão.
    .short = freio de estacionamento
Precondition-fill-port-open = O bujão de abastecimento foi aberto: ele se solta.
    .short = bujão de abastecimento
Precondition-fluid-right = A embalagem foi lida junto aos dados do veículo: igual.
    .short = embalagem lida
Precondition-pipe-in = Tubo de transbordo de volta, com a mão até o batente. Depois o seu torque pequeno.
    .short = tubo de transbordo posto
Precondition-closed-up = Bujões de nível e de abastecimento postos com a mão. Bandeja e mangueira de abastecimento retiradas.
    .short = bujões postos, bandeja retirada
Precondition-clear = Quem estava embaixo saiu com as ferramentas e avisou.
    .short = está fora
Precondition-bypass-out = O pino do radiador de óleo foi tirado.
    .short = pino do radiador de óleo tirado
Precondition-no-leak = Motor em marcha lenta, parte de baixo seca: nenhum vazamento visto.
    .short = busca de vazamentos
Precondition-refitted = Coberturas e roda montadas, porcas apertadas com o veículo no chão.
    .short = coberturas, roda
Precondition-mode-on = Modo de serviço ativo, Start-Stop tirado.
    .short = modo de serviço
Precondition-ready-off = Ready apagado, a chave está com quem está embaixo.
    .short = Ready apagado
Precondition-dry = O derramado está recolhido, o escapamento limpo.
    .short = derrame seco
Precondition-all-safe = Todos estão fora de perigo.
    .short = todos a salvo

## Reason

Reason-in-band = O óleo está dentro da faixa, incluída a incerteza.
Reason-no-band = Esta verificação não pede temperatura.
Reason-below-band = O óleo ainda está abaixo da faixa.
    .remedy = Deixe o motor em marcha lenta; a previsão diz quanto tempo.
Reason-above-band = O óleo está acima da faixa.
    .remedy = Mantenha fechado o bujão de nível, pare o motor e deixe esfriar.
Reason-guard-band = Tão perto do limite da faixa que pode estar fora.
    .remedy = Espere; logo ficará claro.
Reason-hysteresis = Recém dentro da faixa, ou ainda misturando depois da partida.
    .remedy = Espere; logo ficará claro.
Reason-too-uncertain = A temperatura não é conhecida o bastante para esta faixa.
    .remedy = Dê uma leitura melhor: um identificador do óleo, ou termômetro sobre fita ou pintura fosca.
Reason-no-reading = Ainda não há leitura de temperatura.
    .remedy = Com a ignição ligada, a primeira vem em alguns segundos.
Reason-stale = A última leitura de temperatura é velha demais.
    .remedy = Volta sozinha; se não, verifique o conector do adaptador.
Reason-link-lost = Não há conexão com o veículo.
    .remedy = Verifique o conector do adaptador e a ignição; volta sozinha.
Reason-frozen = A temperatura não mudou, embora devesse: o sensor pode estar travado.
    .remedy = Compare com um termômetro no cárter do câmbio; se diferem, o sensor ou a fiação falha.
Reason-stepped-away = A temperatura saltou mais do que o possível para o óleo.
    .remedy = Verifique o conector do sensor; espere até as leituras coincidirem de novo.
Reason-not-alive = A temperatura ainda não mudou. Por isso o sensor não está provado.
    .remedy = Compare com um termômetro no cárter do câmbio; se diferem, o sensor ou a fiação falha.
Reason-copies-coolant = A leitura do óleo sempre iguala o arrefecimento: a unidade de controle pode substituí-la.
    .remedy = Antes de confiar, meça o cárter do câmbio com termômetro.
Reason-disagrees = A temperatura não combina com arrefecimento, ar, partida ou termômetro.
    .remedy = Meça o cárter do câmbio sobre fita ou pintura fosca. Verifique o identificador nos dados do veículo e a superfície anotada.
Reason-units-disagree = As unidades de controle dão temperaturas diferentes. Ninguém disse qual está certa.
    .remedy = Descubra com um termômetro qual está certa. Indique-a nos dados do veículo: `check.from`.
Reason-other-vehicle = O adaptador está ligado a outro veículo, não ao deste trabalho.
    .remedy = Ligue o adaptador de novo ao veículo deste trabalho.
Reason-sensor-code = Há um código de falha do sensor de temperatura do óleo.
    .remedy = Conserte primeiro o sensor ou o circuito; esta temperatura não é confiável.
Reason-overheat-code = Há um código de falha por óleo superaquecido.
    .remedy = Descubra por que superaqueceu antes de ajustar o nível do óleo.
Reason-implausible = A leitura está fora do possível para o óleo.
    .remedy = Verifique o conector do sensor; espere até as leituras coincidirem de novo.
Reason-precondition-open = Falta confirmar algo que deve valer antes de ajustar o nível.
    .remedy = Veja a lista do que está pendente.
Reason-no-job = Nenhum trabalho foi começado.

## Trouble

Trouble-port-gone = A conexão com o adaptador está cortada.
    .remedy = Verifique o conector e o cabo do adaptador; volta sozinha.
Trouble-adapter-silent = O adaptador não responde.
    .remedy = Verifique o conector do adaptador; volta sozinho.
Trouble-adapter-mute = O adaptador não diz nada, embora a porta tenha sido reaberta.
    .remedy = Tire o adaptador e encaixe de novo; se não ajudar, use outro.
Trouble-out-of-step = O adaptador responde, mas não ao que se pergunta.
    .remedy = Tire o adaptador e encaixe de novo; se não ajudar, use outro.
Trouble-adapter-fault = O adaptador avisa de uma falha própria.
    .remedy = Tire o adaptador e encaixe de novo; se não ajudar, use outro.
Trouble-restarting = O adaptador perdeu os ajustes e é configurado de novo.
    .remedy = Volta sozinho; se acontecer várias vezes, verifique o conector.
Trouble-modem = Nesta porta responde um modem.
    .remedy = Indique outro dispositivo: esta porta não é a do adaptador.
Trouble-loop = Só volta o que foi enviado: cabo solto, ou adaptador sem alimentação.
    .remedy = Ligue o adaptador ao veículo: ali ele recebe a alimentação.
Trouble-noise = Desta porta só vem ruído.
    .remedy = Indique a velocidade do adaptador com o dispositivo, ou outro dispositivo.
Trouble-talk = O que responde não aceita os ajustes de um adaptador de diagnóstico.
    .remedy = Tire o adaptador e encaixe de novo; se não ajudar, use outro.
Trouble-not-understood = O adaptador não entende o que se deve perguntar ao veículo.
    .remedy = Use outro adaptador.
Trouble-senders-unknown = Várias unidades de controle respondem. O adaptador não diz qual enviou o quê.
    .remedy = Use outro adaptador, um que diga quem enviou.
Trouble-sender-unknown = O adaptador não diz qual unidade de controle responde.
    .remedy = Use outro adaptador, um que diga quem enviou.
Trouble-protocol-unknown = O veículo responde, mas o adaptador não diz em qual barramento.
    .remedy = Use outro adaptador.
Trouble-unreadable = O veículo responde, mas o texto do adaptador não se consegue ler.
    .remedy = A pergunta se repete sozinha; se continuar assim, use outro adaptador.
Trouble-late-reply = O adaptador não termina as respostas a tempo.
    .remedy = A pergunta se repete sozinha; se continuar assim, use outro adaptador.
Trouble-interrupted = O adaptador interrompe o que se pergunta.
    .remedy = A pergunta se repete sozinha; se continuar assim, use outro adaptador.
Trouble-spoilt = As respostas se estragam no caminho.
    .remedy = Verifique conector e cabo; a pergunta se repete sozinha. Se continuar assim, use outro adaptador.
Trouble-other-request = As respostas são de outras perguntas.
    .remedy = A pergunta se repete sozinha; se continuar assim, use outro adaptador.
Trouble-repeats = O adaptador só repete respostas antigas.
    .remedy = Tire o adaptador e encaixe de novo; se não ajudar, use outro.
Trouble-unsteady = O valor muda de uma resposta para outra.
    .remedy = Verifique conector e cabo; a pergunta se repete sozinha. Se continuar assim, use outro adaptador.
Trouble-vehicle-silent = O veículo não responde.
    .remedy = Verifique a ignição, e se o adaptador está firme na tomada.
Trouble-search-endless = A busca do veículo não termina.
    .remedy = A busca se repete sozinha; verifique se o adaptador está firme na tomada.
Trouble-bus-start = O barramento do veículo não inicia.
    .remedy = Verifique a ignição, e se o adaptador está firme na tomada.
Trouble-bus-trouble = O barramento do veículo perturba o que é enviado.
    .remedy = Verifique se o adaptador está firme. Deixe a tomada livre de outros aparelhos.
Trouble-only-refusals = O veículo recusa até a primeira pergunta.
    .remedy = Alguns veículos bloqueiam a tomada; então só resta um termômetro.
Trouble-unit-silent = Nenhuma unidade de controle responde a esta pergunta.
    .remedy = O veículo em si responde: verifique cabeçalho e identificador nos dados do veículo.
Trouble-unit-busy = A unidade de controle pede mais tempo e não responde.
    .remedy = Se continuar assim, verifique o identificador nos dados do veículo.
Trouble-refused-unknown = A unidade de controle recusa: não conhece este identificador.
    .remedy = Verifique identificador e cabeçalho nos dados do veículo.
Trouble-refused-locked = A unidade de controle recusa: mantém este valor bloqueado.
    .remedy = Use dados do veículo com arrefecimento ou termômetro.
Trouble-refused-now = A unidade de controle recusa por enquanto: faltam condições.
    .remedy = Continue; talvez responda no passo com o motor funcionando.
Trouble-refused = A unidade de controle recusa esta pergunta.
    .remedy = Verifique identificador e cabeçalho nos dados do veículo.
Trouble-wrong-sender = Responde outra unidade de controle, não a perguntada.
    .remedy = Verifique o cabeçalho nos dados do veículo.
Trouble-not-addressable = A unidade de controle indicada não é acessível neste barramento.
    .remedy = Verifique o cabeçalho nos dados do veículo.
Trouble-undecodable = A resposta não tem a forma dos dados do veículo.
    .remedy = Verifique byte e comprimento do identificador nos dados do veículo.

## Outcome

Outcome-set = O nível do óleo ficou certo.
Outcome-set-low = Nível do óleo ajustado, mas falta mais óleo que o permitido.
Outcome-set-high = Nível do óleo ajustado, mas sobra mais óleo que o permitido.
Outcome-not-set = O nível do óleo não está ajustado.
Outcome-set-unsure = O nível do óleo está provavelmente certo.
Outcome-checked = O nível do óleo estava certo.

## Drivable

Drivable-yes = Pode rodar.
Drivable-workshop-only = Só pode ser movido dentro da oficina.
Drivable-no = Proibido rodar; mova só com as rodas motrizes fora do chão.

## Meaning

Meaning-other-cause = O nível do óleo estava certo: o sintoma tem outra causa. Trocar o óleo não cura. Leia os códigos de falha.
Meaning-driven-low = Rodou com falta de óleo. Pergunte se patina, leia os códigos de falha, avise o cliente.
Meaning-ask-history = Faltava óleo e não se vê vazamento. Pergunte quem mexeu nele e quando.
Meaning-filled-wrong = Estava cheio demais. Foi abastecido a frio, ou tem outro óleo? Pergunte.
Meaning-worn = Preto, queimado ou com metal: está gasto por dentro. O cliente decide.
Meaning-water-in = Leitoso: tem água ou líquido de arrefecimento. Descubra por onde entra.

## Question

Question-symptoms = Por que está aqui?
Question-leaks = Olhe por baixo: há vazamento?
Question-leak-place = Onde é o vazamento?
Question-fluid = As primeiras gotas: como é o aspecto do óleo?

## FindNext

FindNext-key-on = Ligue só a ignição. Deixe o motor parado e frio.
FindNext-key-off = Desligue a chave por dez minutos. Depois ligue a chave, motor parado.
FindNext-wait = Deixe a ignição ligada e o motor parado.
FindNext-charge-battery = Carregue a bateria. A busca continua sozinha.
FindNext-stop-engine = Pare o motor. A busca precisa dele parado.
FindNext-start-engine = Saiam todos de baixo, mangueira de escapamento para fora. Depois dê a partida, em P.
FindNext-warm = Deixe em marcha lenta para esquentar.
FindNext-spot = Só em quatro cavaletes, longe de eixos: meça o cárter do câmbio. Anote a leitura do termômetro.
FindNext-cold-soak = Deixe o veículo parado a noite toda, depois comece de novo.
FindNext-confirm = Mostra o mesmo que o termômetro? Então confirme.
FindNext-by-thermometer = Ajuste o nível do óleo com termômetro.
FindNext-look-at-link = Olhe o adaptador, depois inicie a busca de novo.
FindNext-nothing = Aqui não há mais nada a fazer.

## EngineWord

EngineWord-idling = Está em marcha lenta.
EngineWord-stopped = Está parado.

## Surface

Surface-tape = Fita fosca no cárter metálico do câmbio.
Surface-matt-paint = Pintura fosca no cárter metálico do câmbio.
Surface-plastic = Um cárter do câmbio de plástico.
Surface-bare-metal = Metal nu: recusado para infravermelho, a leitura é a do entorno.
Surface-contact = Uma sonda de contato no cárter metálico do câmbio.
Surface-stream = Uma sonda no próprio óleo.
Surface-air = Nenhuma superfície: o ar embaixo do veículo.

## Narrowing

Narrowing-spot-on-tape = Termômetro sobre fita ou pintura fosca do cárter do câmbio.
Narrowing-air-under-vehicle = A temperatura do ar embaixo do veículo.

## Symptom

Symptom-slips = Patina com a marcha engatada.
Symptom-flares = O giro do motor sobe entre duas marchas.
Symptom-late = Engata tarde.
Symptom-hard = Engata com tranco.
Symptom-whine = Zune.
Symptom-shudder = Trepida.
Symptom-lamp = Uma luz acendeu.
Symptom-leak = Viu-se óleo embaixo.
Symptom-worked-on = Alguém mexeu nele há pouco.
Symptom-none = Nada foi notado.

## Leak

Leak-dry = Seco.
Leak-damp = Úmido: nenhuma gota pendurada.
Leak-drops = Formam-se gotas.
Leak-runs = Escorre.

## LeakPlace

LeakPlace-pan = No cárter do câmbio.
LeakPlace-pipe-or-plug = No tubo de transbordo ou num bujão.
LeakPlace-cooler-line = Num tubo do radiador de óleo.
LeakPlace-axle-seal = Num retentor de semieixo.
LeakPlace-converter-housing = Na carcaça do conversor.
LeakPlace-not-seen = Não se vê onde.

## FluidLook

FluidLook-red = Vermelho, ou como novo.
FluidLook-brown = Marrom.
FluidLook-black = Preto.
FluidLook-burnt = Cheira a queimado.
FluidLook-milky = Leitoso.
FluidLook-metal = Tem metal.

## Alarm

Alarm-air = Ar ruim: tontura, dor de cabeça.
Alarm-burn = Alguém se queimou.
Alarm-caught = Alguém está preso.
Alarm-fire = Fogo.

## Part

Part-filter = O filtro velho, encharcado.
Part-cooler = O radiador de óleo e os tubos, esvaziados.
Part-pan = O cárter do câmbio, desmontado: o que ainda ficou nele.
Part-converter = O conversor, esvaziado.

## Refusal

Refusal-no-job = Nenhum trabalho foi começado: primeiro `tell start`.
Refusal-job-running = Há um trabalho em curso: termine primeiro com `tell done` ou `tell abort`.
Refusal-not-yet = Isso vem mais tarde no trabalho; um passo anterior está pendente.
Refusal-already-done = Isso já está anotado; `tell undo` anula.
Refusal-not-go = O veredito não é `go`, então o nível do óleo não pode estar certo agora.
Refusal-not-the-sign = Este veículo mostra o nível do óleo por outro sinal: anote o que a tela pede.
Refusal-port-closed = Não está anotado que o bujão de nível está aberto: primeiro `tell flowing`.
Refusal-port-open = O bujão de nível ainda está aberto: feche e primeiro `tell closed`.
Refusal-shown-by-vehicle = O próprio veículo mostra isso; uma pessoa não pode confirmar.
Refusal-not-needed = Os dados do veículo não pedem isso.
Refusal-not-level = O veículo não está nivelado o bastante: o nível do óleo erraria mais do que permitem os dados do veículo.
Refusal-impossible-amount = Essa quantidade não é possível: mais do que cabe no câmbio, ou não mais que nada.
Refusal-more-out-than-in = Teria saído mais do que jamais houve dentro; meça de novo.
Refusal-useless-surface = Metal nu reflete o entorno: ponha fita fosca e meça sobre ela.
Refusal-impossible-value = Nenhum veículo numa oficina tem esse valor; meça de novo.
Refusal-amount-unknown = Os dados do veículo não dizem quanto cabe ali: meça e anote a quantidade.
Refusal-base-unknown = Os dados do veículo não dizem entre-eixos nem bitola: anote também.
Refusal-corner-misread = Os quatro cantos não ficam num plano: um foi lido errado. Meça de novo.
Refusal-wrong-position = A alavanca seletora tem outra posição a seguir; a tela mostra qual.
Refusal-too-early = A alavanca seletora não ficou tempo bastante na posição anterior; a tela mostra quanto.
Refusal-no-such-job = O registro não tem trabalho com esse número.
Refusal-not-a-hash = Isso não é um SHA-256: 64 dígitos hexadecimais em minúsculas.
Refusal-nothing-to-undo = Não há nada que se possa anular.
Refusal-too-long = O texto é longo demais: no máximo 200 caracteres.
Refusal-hidden-character = O texto contém um caractere que não se vê mas muda o que se vê.
Refusal-no-such-event = Ainda não aconteceu nenhum evento com esse número; o que vier é enviado.
Refusal-too-many = Este trabalho já tem todas as notas, fotos e nomes do veículo que cabem: escreva o resto em outro lugar.
Refusal-too-fast = Isso é mais do que uma pessoa escreve em tão pouco tempo: espere alguns segundos e anote de novo.
Refusal-not-understood = Isso não é um pedido da interface.
Refusal-journal-full = O registro não pode ser escrito, então nada se pode garantir. Libere espaço no disco.
Refusal-band-decided = A faixa que vale foi decidida no começo deste trabalho. Se estiver errada, termine o trabalho, anote o ar e comece de novo.
Refusal-needs-adapter = Esses dados do veículo seguem o arrefecimento do motor que o veículo informa; sem adaptador ninguém o lê. Escolha dados do veículo com o sinal `spot` ou `fluid`.
Refusal-no-such-sheet = O daemon não recebeu dados do veículo com esse nome; `serve --sheets FOLDER` indica uma pasta com eles.
Refusal-sheet-unconfirmed = Ninguém confirmou aqui estes dados do veículo: `standpipe sheet check FILE` diz quais, `standpipe sheet confirm FILE` confirma.
Refusal-no-sheet = Faltam os dados do veículo, então não se pode ajustar o nível do óleo: comece de novo com `--sheet FILE`.
Refusal-not-searching = Nenhuma busca de identificador em curso: `standpipe find` começa uma.
Refusal-no-such-candidate = Esse identificador não é o que está na frente; a tela mostra qual é.
Refusal-not-agreed = Nenhum termômetro concorda com ele ainda: primeiro meça o cárter do câmbio e anote com `spot`.
Refusal-not-settled = Ainda pode ser mais de um identificador: deixe esquentar mais.
Refusal-ended = O trabalho terminou; `tell start` começa um novo.

## Shortfall

Shortfall-nothing-ran-out = Nada saiu com `go`, então falta óleo. Complete com mais, depois olhe de novo na temperatura certa.
Shortfall-stays-dry = Nada saiu com `go`, embora se abasteceu com mais do que pode faltar. Pare de abastecer: procure um vazamento, outro bujão, verifique se o veículo está nivelado.
Shortfall-gush-only = Só saiu o primeiro jorro: falta óleo. Complete com o que falta e o extra, depois olhe de novo.
Shortfall-ran-out-too-much = Saiu muito mais do que sobrava: bujão errado, ou tubo de transbordo solto? Complete com o que falta, depois olhe de novo.
Shortfall-amount-off = A quantidade que tem não é a indicada, ou o óleo velho não foi todo drenado. Drene tudo e abasteça com a quantidade indicada.
Shortfall-gauge-low = A vareta marca abaixo da tabela: falta óleo. Complete com o que falta pela leitura, depois leia de novo.
Shortfall-gauge-high = A vareta marca acima da tabela: cheio demais. Retire um pouco, medindo, depois leia de novo.
Shortfall-not-read-twice = Não há duas leituras da vareta dentro da faixa que coincidam em 2 mm. Limpe, empurre até o batente, leia de novo.
Shortfall-not-looked-again = Ninguém olhou de novo o nível do óleo depois do teste de rodagem. Nivele o veículo mais uma vez e olhe.
Shortfall-not-opened = O bujão de nível não foi aberto enquanto o veredito era `go`. Espere a próxima temperatura certa e ajuste então o nível do óleo.
Shortfall-opened-before-go = O bujão de nível estava aberto antes de o veredito ser `go`. O óleo que saiu então falta no extra; ajuste de novo o nível do óleo na temperatura certa.
Shortfall-no-trickle = O jato ainda não era um fio fino ao fechar o bujão de nível: cheio demais. Abra de novo na temperatura certa e deixe sair.
Shortfall-too-hot-before-trickle = O óleo ficou muito quente antes de o jato ser um fio fino. Deixe esfriar, complete com a quantidade indicada e ajuste de novo o nível do óleo.
Shortfall-closed-late = O bujão de nível foi fechado com o óleo já muito quente: o nível do óleo não está certo. Deixe esfriar e ajuste de novo.
Shortfall-closed-outside-go = O veredito não era `go` ao fechar o bujão de nível. Ajuste de novo o nível do óleo na temperatura certa.
Shortfall-precondition-open = Algo ficou sem confirmar: veja o que está pendente. Corrija e ajuste de novo o nível do óleo.
Shortfall-not-level = O veículo não estava nivelado. Nivele e ajuste de novo o nível do óleo.
Shortfall-started-warm = O veículo estava quente no começo do trabalho. Deixe esfriar até arrefecimento e ar coincidirem, depois comece de novo.
Shortfall-sensor-untrusted = A temperatura não era confiável quando importava. Compare com um termômetro no cárter do câmbio: ainda não se sabe qual está errado.
Shortfall-link-lost-while-open = O adaptador foi perdido com o bujão de nível aberto. Ajuste de novo o nível do óleo com uma conexão estável.
Shortfall-balance-open = O que saiu não combina com o que foi abastecido. Faltava óleo antes, não foi todo drenado, ou há vazamento? Verifique de novo em breve.
Shortfall-unmeasured = Sem medir: o drenado, o abastecido ou o que saiu. As quantidades não podem verificar o nível do óleo.
Shortfall-too-hot = O óleo estava acima da faixa. Pare o motor, deixe esfriar e comece de novo com o veículo frio.
Shortfall-thin-evidence = Dito por pessoas, e não houve tudo isto: duas leituras dentro da faixa, a última no máximo 2 min antes de fechar, a medição do nivelamento do veículo e um jato de mais de 15 s.
Shortfall-leak-seen = Foi anotado um vazamento e ninguém olhou desde então. Conserte primeiro.
Shortfall-aborted = O trabalho foi terminado à mão.

## What hands do, where an amount or the kind of level stands in it

shim-stands = Saia. Depois ponha { $shims }, e meça de novo.
shims-both-rear = { $depth } embaixo dos dois cavaletes traseiros
shims-both-front = { $depth } embaixo dos dois cavaletes dianteiros
shims-both-left = { $depth } embaixo dos dois cavaletes esquerdos
shims-both-right = { $depth } embaixo dos dois cavaletes direitos
shim-front-left = { $depth } na frente à esquerda
shim-front-right = { $depth } na frente à direita
shim-rear-left = { $depth } atrás à esquerda
shim-rear-right = { $depth } atrás à direita
shims-each = { $parts } embaixo dos cavaletes
fill-amount = Abasteça com { $amount }: o que saiu, mais o extra.
fill-first-amount = Mantenha o motor parado. Abasteça primeiro com { $amount }.
fill-more-through-the-tube = Falta óleo: complete com { $amount } pelo tubo da vareta.
fill-more-amount = Feche com a mão o bujão de nível. Falta óleo: complete com { $amount }.
draw-out-amount = Cheio demais: retire { $amount } pelo tubo da vareta, medindo.
add-that-amount = Feche o bujão com a mão. Depois complete com { $amount }.
fill-here-amount = Falta óleo: complete com { $amount } por esta abertura.
let-out-amount = Cheio demais: mantenha o motor parado. Deixe sair { $amount }, medindo.
not-driven-amount = Proibido rodar. Faltam { $amount }.
open-level-hole = Abra o furo de nível agora, pelo lado. Óculos postos.
watch-until-it-drips = Olhe pelo lado. Diga quando só gotejar.
be-ready-at-the-hole = Entre embaixo já. Mantenha fechado o furo de nível.
close-hole-not-right = Feche o furo de nível. Esta não é a temperatura certa.
close-hole-too-hot = Feche o furo de nível. Muito quente.
pipe-out-plug-in = Tire o tubo de transbordo, ponha logo o bujão, com a mão.
drain-and-measure = Drene o óleo. Meça quanto sai e a temperatura.
fill-that-of-the-data = Abasteça com a quantidade dos dados do veículo.
close-up-cap-on = Bujão de drenagem posto com a mão, tubo da vareta tampado. Retire mangueira de abastecimento e bandeja.
cap-on-check-adapter = Deixe tampado o tubo da vareta. Verifique o conector do adaptador.
gauge-and-cloth-ready = Tenha prontos vareta e pano. Deixe tampado o tubo da vareta.
fill-more-tube = Falta óleo: complete com mais pelo tubo da vareta.
cap-locked-tighten = Tubo da vareta tampado e travado. Motor parado, depois aperte o bujão de drenagem.
close-up-plugs = Ponha os bujões com a mão. Retire a mangueira de abastecimento e a bandeja.

## The result

level-low-by = Nível do óleo ajustado, faltam { $amount }.
level-high-by = Nível do óleo ajustado, sobram { $amount }.
known-to-within = Conhecido em ±{ $amount }.
known-to = Conhecido em { $amount }.
was-low-by-more = Faltavam mais de { $amount }.
was-right-within = Estava certo, conhecido em ±{ $amount }.
was-low-by = Faltavam cerca de { $amount }, ±{ $within }.
was-high-by = Sobravam cerca de { $amount }, ±{ $within }.
less-than-before = Tem { $amount } a menos que antes.
more-than-before = Tem { $amount } a mais que antes.
as-much-as-before = Tem o mesmo que antes.
mend-leak-first = Conserte primeiro o vazamento. Depois ajuste de novo o nível do óleo.
find-why-it-stays-low = Descubra por que continua faltando óleo antes de rodar. Depois ajuste de novo o nível do óleo.
recheck-on-the-day = Verifique de novo o nível do óleo, a frio. O relatório diz o dia.
fill-then-open-again = Complete com { $amount }, depois abra o bujão de nível na temperatura certa. Deixe sair até um fio fino.
open-again-let-run = Veículo nivelado, abra de novo o bujão de nível na temperatura certa. Deixe sair até um fio fino.
put-right-and-fill = Corrija o indicado abaixo, complete com { $amount }. Depois ajuste de novo o nível do óleo.
put-right-and-set-again = Corrija o indicado abaixo. Depois ajuste de novo o nível do óleo.

## What comes next: at most eight words

next-stands-level-hose = Cavaletes, veículo nivelado, mangueira de escapamento.
next-drain-fill-port-first = Abrir bujão de abastecimento, só depois drenar.
next-measure-how-it-stands = Medir se o veículo está nivelado.
next-read-the-container = Ler a embalagem.
next-drain = Drenar o óleo.
next-pipe-back-in = Repor o tubo de transbordo, com a mão.
next-fill-and-circulate-again = Abastecer de novo, e de novo fazer circular.
next-fill = Abastecer com o que saiu, mais o extra.
next-close-up-come-out = Pôr os dois bujões, retirar bandeja, sair.
next-come-out-engine-starts = Sair. Só depois vem a partida.
next-brake-and-selector = Pisar no freio, alavanca seletora pelas posições.
next-stay-out-until-near = Ficar fora até perto da temperatura certa.
next-go-below-when-near = Entrar embaixo perto da temperatura certa.
next-open-at-the-word = Esperar o sinal para abrir bujão de nível.
next-read-once-more = Limpar e ler mais uma vez.
next-thin-thread-close = Fio fino: fechar com a mão.
next-engine-off-jug-plugs = Motor parado, ler jarra medidora, apertar bujões.
next-open-only-when-right = Abrir de novo só na temperatura certa.
next-let-it-cool = Deixar esfriar; a temperatura certa volta.
next-right-plug-pipe-in = Motor parado, ler jarra medidora. Bujão certo, tubo de transbordo posto?
next-look-again = Olhar de novo na temperatura certa.
next-wipe-dry-look = Secar, sair, procurar vazamentos.
next-engine-on-look-for-drops = Motor funcionando de novo, procurar gotas.
next-lower-and-drive = Sair. Depois baixam o veículo e rodam.
next-drive-a-short-way = Baixar o veículo, rodar um trecho curto.
next-finish = Terminar o relatório.
next-check-again = Verificar de novo, a frio, no dia indicado.

## Nothing is read: what hands do, and who is silent

close-port-if-open = Feche o bujão de nível se estiver aberto.
leave-the-engine = Deixe o motor como está.
check-adapter-plug = Verifique o conector do adaptador.
check-which-device = Verifique qual dispositivo está indicado.
use-another-adapter = Use outro adaptador.
check-ignition-and-plug = Verifique a ignição e o conector do adaptador.
wait-until-it-answers = Espere até responder.
check-the-sheet = Verifique os dados do veículo.
none-yet = espera: { $signal }
vehicle-silent = veículo mudo
adapter-silent = adaptador mudo
adapter-gone = adaptador perdido
no-adapter = sem adaptador
adapter-in-trouble = adaptador falha
signal-refused = recusa: { $signal }
signal-missing = sem dado: { $signal }
name-reading = leitura
name-fluid = óleo
name-coolant = arrefec.
name-spot = termômetro
name-display = visor
name-lamp = luz-piloto

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } rodada, { $dwell } s em cada posição
    [many] { $rounds } de rodadas, { $dwell } s em cada posição
   *[other] { $rounds } rodadas, { $dwell } s em cada posição
}
move-on-round = mude, rodada { $round } de { $rounds }
seconds-more-round = mais { $seconds } s, rodada { $round } de { $rounds }
brake-begin-in = Mantenha o pé no freio. Comece em { $position }.
brake-stay-in = Mantenha o pé no freio. Fique em { $position }.
brake-back-to = Mantenha o pé no freio. Volte para { $position }.
brake-move-to = Mantenha o pé no freio. Passe para { $position }.
offer-begin-in = Está em { $position }: começar
offer-back-in = De volta em { $position }
offer-now-in = Já em { $position }

## Why, with numbers

head-fluid = Óleo
head-coolant = Arrefecimento
head-sump = Cárter do câmbio
head-display = Visor
head-lamp = Faixa da luz-piloto
signal-below-band = { $signal }: { $celsius } ± { $u }, abaixo da faixa { $band }.
signal-above-band = { $signal }: { $celsius } ± { $u }, acima da faixa { $band }.
signal-inside-band = { $signal }: { $celsius } ± { $u }, dentro da faixa { $band }.
fluid-about = Óleo a cerca de { $celsius } ± { $u }.
better-reading = Melhor: { $reading } (± { $u }).
runs-out-in-time = Precisa de cerca de { $needs } min para sair, tem { $window }.
runs-out-tight = Precisa de cerca de { $needs } min para sair, tem { $window }. Justo: tenha tudo à mão, abra logo que vier o sinal.
runs-out-too-long = Precisa de cerca de { $needs } min para sair, tem { $window }. Feche a tempo, faça o resto em outra rodada.
warming-a-minute = Esquenta { $rate } por minuto.
cooling-a-minute = Esfria { $rate } por minuto.

## The search for the identifier

identifier-found = Identificador: encontrado.
identifier-not-found = Identificador: não encontrado.
identifiers-asked = Identificador: { $asked } de cerca de { $planned } perguntados
identifier-stopped = Identificador: busca parada.
identifier-is-left = Identificador: resta { $place }.
identifiers-may-be-it = Identificador: { $left } possíveis.
it-shows = Mostra { $celsius }.
seconds-left = cerca de { $count } s restantes
minutes-left = cerca de { $count } min restantes

## Nothing is known

close-port-nothing-known = Feche o bujão de nível. Não se sabe nada.
keep-port-closed-nothing-known = Mantenha fechado o bujão de nível. Não se sabe nada.
leave-engine-nothing-known = Deixe o motor como está. Não se sabe nada.
keep-port-closed = Mantenha fechado o bujão de nível.
leave-gauge-nothing-known = Deixe a vareta. Não se sabe nada.
without-the-daemon = sem o daemon
daemon-does-not-answer = O daemon não responde. Continua de onde estava quando for iniciado de novo.
no-daemon-for = sem daemon, { $seconds } s
a-person-tells-it = Uma pessoa informa.
last-reading-too-old = A última leitura é velha demais. Volta sozinha.

## Names and counts on a screen

job-number = trabalho { $job }
data-unconfirmed = Ninguém confirmou estes dados do veículo. Com eles nenhum trabalho começa.
data-guessed = Há dados do veículo supostos: o ± é maior. O plano diz o que mais ajuda.
look-again-in = Olhe de novo em cerca de { $minutes } min.
still-open = Pendente: { $what }.
until-window-opens = até a temperatura certa
until-window-closes = restantes na temperatura certa
until-read-again = até ler de novo
until-back-in-band = para esfriar, motor parado
without-a-reading = sem leitura
torque-pipe = tubo de transbordo { $torque }
torque-check-plug = bujão de nível { $torque }
torque-fill-plug = bujão de abastecimento { $torque }
told-by-people = dito por pessoas: { $what }
signal-seconds-ago = { $signal }, há { $count } s
signal-minutes-ago = { $signal }, há { $count } min
step-of = passo { $step } de { $steps }: { $name }
step-prepare = preparar
step-drain = drenar
step-fill = abastecer
step-circulate = fazer circular
step-window = temp. certa
step-run-out = saída do óleo
step-trickle = fio fino
step-close = fechar
step-torque = apertar
step-test-drive = teste de rodagem
step-recheck = verificar de novo
amount-drained = drenado { $amount }
amount-filled = abastecido { $amount }
amount-ran-out = saiu { $amount }
amount-should-run-out = deve sair { $amount }
amounts-at = { $amounts } (a { $celsius })

## The one huge word

word-wait = espere
word-go = agora
word-too-hot = muito quente
word-no-reading = sem leitura

## What can be told: buttons

offer-start-the-job = Começar o trabalho
offer-another-kind-of-job = Outro tipo de trabalho
offer-choose-another-sheet = Escolher outros dados do veículo
offer-hot-day-the-air-outside-in-the-shade = Dia quente? O ar lá fora, à sombra
offer-no-drive-is-felt-in-gear = Engatado, não puxa
offer-it-differs-not-this-fluid = É diferente: não é este óleo
offer-drained-how-much = Drenado: quanto
offer-filled-how-much = Abastecido: quanto
offer-it-was-in-and-more-came-out-how-much = Estava posto, e saiu mais: quanto
offer-ran-out-how-much = Saiu: quanto
offer-it-still-flows = Ainda sai
offer-filled-more-how-much = Completado: quanto
offer-fluid-flows-from-the-check-port = Sai óleo do bujão de nível
offer-nothing-runs-out = Não sai nada
offer-it-only-drips = Só goteja
offer-it-is-a-thin-thread-now = Já é um fio fino
offer-it-stands-at-the-lower-edge = Chega à borda inferior
offer-it-stands-below-the-edge-how-far = Fica abaixo da borda: quanto
offer-it-runs-out-over-the-edge = Sai por cima da borda
offer-fluid-runs-out-there = Sai óleo por ali
offer-drawn-out-how-much = Retirado: quanto
offer-ran-out-from-the-jug-how-much = Saiu, pela jarra medidora: quanto
offer-plugs-tightened-to-the-torques = Bujões apertados com o torque
offer-driven-no-leak-seen = Teste de rodagem feito, sem vazamento
offer-write-the-record = Terminar o relatório
offer-check-port-closed-hand-tight = Bujão de nível fechado com a mão
offer-fluid-flows-now-at-go = Sai óleo, com o sinal
offer-it-leaks-damp-drops-runs = Há vazamento: úmido, gotas, escorre
offer-how-it-stands-measured = Nivelamento do veículo, medido
offer-the-gauge-shows = A vareta marca
offer-the-number-on-the-display = O número do visor
offer-a-thermometer-s-reading = Uma leitura de termômetro
offer-it-stands-on-four-stands = Está em quatro cavaletes
offer-the-lift-is-known-to-be-level = O elevador está nivelado, sabe-se
offer-the-exhaust-goes-outside = O gás de escapamento sai para fora
offer-the-brake-is-held = O freio está pisado
offer-the-cooler-pin-is-in = O pino do radiador de óleo está posto
offer-rounds-done-selector-back-in-p-parking-brake = Rodadas feitas, em P, freio de estacionamento
offer-p-parking-brake-on-chocks = P, freio de estacionamento, calços
offer-the-fill-port-is-open = O bujão de abastecimento está aberto
offer-container-read-the-same-words = Embalagem lida: as mesmas palavras
offer-the-pipe-is-in = O tubo de transbordo está posto
offer-both-plugs-in-tray-and-hose-away = Bujões postos; bandeja e mangueira de abastecimento fora
offer-i-am-out-and-clear = Estou fora
offer-the-cooler-pin-is-out = O pino do radiador de óleo foi tirado
offer-no-leak-seen = Nenhum vazamento visto
offer-covers-and-wheel-are-back-on = Coberturas e roda estão montadas
offer-the-service-mode-is-on = O modo de serviço está ativo
offer-ready-is-off-key-below = Ready apagado, chave embaixo
offer-it-is-dry = Está seco
offer-everybody-is-safe = Todos estão a salvo
offer-it-started-cold = A partida foi a frio
offer-selector-in-the-position-of-the-look = Alavanca na posição da verificação
offer-it-is-so = É assim
offer-recheck-of-number = Verificar de novo outro trabalho: número
offer-the-check-port-is-open-fluid-flows = Bujão de nível aberto, sai óleo
offer-the-check-port-is-open-nothing-comes = Bujão de nível aberto, não sai nada
offer-old-fluid-went-with-a-part = Óleo velho foi com uma peça
offer-kept-back-as-a-sample-how-much = Guardado como amostra: quanto
offer-four-heights-front-left-right-rear-left-righ = Quatro alturas: frente esq., dir., atrás esq., dir.
offer-a-remark-for-the-record = Uma nota para o relatório
offer-which-vehicle-plate-or-order = Qual veículo: placa ou ordem
offer-write-the-record-now = Terminar já o relatório
offer-end-the-job-without-a-level = Terminar o trabalho sem nível do óleo
offer-somebody-is-in-danger = Alguém está em perigo
offer-spilled-at-the-drain-by-eye-how-much = Derramado ao drenar, a olho: quanto
offer-spilled-while-filling-by-eye-how-much = Derramado ao abastecer, a olho: quanto
offer-spilled-at-the-check-port-by-eye-how-much = Derramado ao verificar, a olho: quanto
offer-it-is-the-fluids = É o do óleo: { $place }
offer-lamp-too-cold = Luz-piloto, frio demais: { $shows }
offer-lamp-right = Luz-piloto, certo: { $shows }
offer-lamp-too-hot = Luz-piloto, muito quente: { $shows }

## What is asked with a choice

choice-check = só verificar o nível do óleo
choice-alone = troca, uma pessoa sozinha
choice-check-alone = só verificar, uma pessoa sozinha

## On every screen

say-next = Depois: { $what }
say-balance = Quantidades: { $what }
say-undo = Anular: { $what }
hold-to-tell = segure para confirmar
hold-longer = Segure o botão mais um pouco: { $what }.
told = Anotado.
refused = Sem anotar: { $why }
not-told-no-contact = Sem anotar: não há conexão.
let-be = Deixar assim

## The terminal

term-open = pendente: { $what }
term-twice = (duas vezes)
term-more = m mais
term-more-page = m mais ({ $page } de { $pages })
term-other-seat = i outro posto
term-undo = u anular { $what }
term-leave = q sair
term-press-again = { $what }: aperte { $key } de novo.
term-nothing-to-take-back = Do último minuto não se pode anular nada.
term-like-amount = como 2.4L 22C
term-like-depth = como 3mm
term-like-level = arfagem e rolagem, como 0.1deg -0.2deg
term-like-spot = como 38.5C tape; { $surfaces }
term-like-temperature = como 41C
term-like-number = o número: { $names }
term-then-enter = depois Enter

## The page

page-connecting = conectando
page-nothing-known-yet = Ainda não se sabe nada.
page-pipe-nothing-known = O tubo de transbordo: não se sabe nada
page-pipe-shows = O tubo de transbordo: { $celsius }, faixa { $low } a { $high }
page-positions = Posições da alavanca seletora
page-still-open = Pendente
page-cautions = Cuidados
page-more = Mais
page-elsewhere = Em outro lugar
page-seat-inside = O posto de dentro
page-seat-under = O posto embaixo do veículo
page-jobs = Trabalhos e relatórios
page-plan = Plano
page-data = Dados do veículo
page-sound = Som
page-sound-on = O som está ativo
page-sound-off = O som está mudo
page-volume = Volume
page-vibration-on = A vibração está ativa
page-vibration-off = A vibração está parada
page-hear-all = Ouvir todos
page-tell = Anotar
page-close = Fechar janela
page-pair-title = Emparelhar este navegador
page-pair-where = O código está no terminal do daemon; standpipe page pair mostra um novo.
page-code = Código
page-pair-clear = Esta página não é cifrada: quem escuta nesta rede pode ler tudo e pegar o código.
page-pair = Emparelhar
page-no-contact = sem conexão
page-no-contact-for = sem conexão, { $seconds }
page-without-contact = sem conexão
page-no-daemon = Sem conexão com o daemon. Volta sozinha.
page-leave-engine = Deixe o motor como está. Não se sabe nada.
page-close-port-if-open = Feche o bujão de nível se estiver aberto. Não se sabe nada.
page-how-much = Quanto
page-how-warm = Temperatura que tinha
page-depth = Lido ou medido
page-pitch = Arfagem, frente para cima é positivo
page-roll = Rolagem, lado esquerdo para cima é positivo
page-temperature = Temperatura
page-thermometer-shows = O termômetro marca
page-held-to = Encostado ou apontado em
page-in-your-words = Com as suas palavras
page-which = Qual
page-degrees = graus
page-no-job = Ainda nenhum trabalho.
page-job = Trabalho { $job }, { $day }

## What can be taken back

undo-level = a inclinação medida
undo-drained = a quantidade drenada
undo-filled = a quantidade abastecida
undo-ran-out = a quantidade que saiu
undo-gauge = a leitura da vareta
undo-answer = a última resposta
undo-selector = a alavanca em { $position }
undo-trickle = o fio fino
undo-drips = as gotas
undo-torqued = os bujões apertados
undo-test-driven = o teste de rodagem

## How a bay is

status-job = O trabalho { $job } está em curso.
status-adapter = Adaptador: { $what }
status-by-people = Adaptador: nenhum, pessoas informam tudo
status-port-shut = Adaptador: { $what }, a porta dele está fechada
status-vehicle = Veículo: responde por { $what }
status-vehicle-silent = Veículo: sem resposta
status-reading = Última leitura: { $celsius }, há { $age }
status-no-reading = Última leitura: nenhuma
status-disk = Diário: { $free } livres no disco
status-disk-silent = Diário: o disco não responde
status-clock = Relógio: { $time }
status-clock-behind = Relógio: { $time }, atrasado { $behind }
status-clients = Clientes: { $here } de { $most }, este incluído
status-running = Daemon: versão { $version }, em execução há { $time }

## Health

Health-healthy = Está tudo de que um trabalho precisa.
Health-waiting = Funciona e espera: ainda não é possível ler nada.
Health-needs-a-hand = Funciona, mas alguém precisa fazer algo.

## Ailment

Ailment-no-adapter = O adaptador não está ali ou não responde.
    .remedy = Verifique o conector e o cabo; volta sozinho.
Ailment-no-vehicle = O veículo não responde.
    .remedy = Verifique se o adaptador está firme na tomada.
Ailment-no-reading = A temperatura da verificação não é lida.
    .remedy = Espere alguns segundos; depois verifique o identificador na ficha.
Ailment-disk-full = O disco do diário está quase cheio.
    .remedy = Libere espaço antes do próximo trabalho.
Ailment-disk-slow = O disco do diário está lento: eventos esperam por ele.
    .remedy = Use outro cartão ou disco para o diário.
Ailment-clock-behind = O relógio está atrás do que o diário já contém.
    .remedy = Acerte o relógio: os relatórios levam a data dele.

## ClosureCause

ClosureCause-opened-early = Aberto antes da temperatura certa: saiu também o que o conversor teria tomado. Abasteça e ajuste de novo.
ClosureCause-engine-stopped = O motor parou com o bujão aberto: saiu também o que volta do conversor. Ajuste de novo.
ClosureCause-wrong-temperature = Uma quantidade veio sem a temperatura, ou com uma errada: óleo quente ocupa mais. Meça calor e quantidade juntos.
ClosureCause-was-low-before = Antes do trabalho faltava óleo: parte do extra compensou. Pergunte desde quando e procure um vazamento antigo.
ClosureCause-not-all-caught = Nem tudo que saiu foi recolhido. Anote o derramado, a olho.
ClosureCause-leak = O óleo sai por outro lugar. Veja bujões, junta do cárter e linhas do resfriador antes de rodar.
ClosureCause-was-high-before = Antes do trabalho havia óleo demais.
ClosureCause-tube-not-seated = O tubo de transbordo não está até o batente: saiu óleo ao lado e falta. Aperte no torque e ajuste de novo.
ClosureCause-drained-not-fully = Drenou-se menos que o esperado nos dados: ficou mais óleo velho. O nível não depende disso.

## Cause

Cause-temperature = Ao fechar, o óleo não estava no meio da faixa.
Cause-tilt = O veículo não estava bem nivelado.
Cause-warming = O óleo esquentava enquanto pingava: ficou mais que o normal acima da borda.
Cause-amount = O abastecido difere da quantidade indicada, segundo as medidas.
Cause-guess = O que é suposto nos dados do veículo.
Cause-residual = A película acima da borda difere da do fio fino normal.

## Fault

Fault-code-stored = O veículo guarda um código de falha.
Fault-not-an-adapter = O que responde nesta porta não é um adaptador deste tipo.
Fault-adapter-fault = O adaptador indica uma falha própria.
Fault-bus-fault = O barramento do veículo perturba a troca.
Fault-no-answer = Um módulo não responde a um pedido.
Fault-declined = Um módulo recusa um pedido.
Fault-undecodable = Uma resposta não pôde ser decifrada, então não virou leitura.
Fault-units-disagree = Módulos dão valores diferentes da mesma grandeza.
Fault-avoided = A conexão caía sempre que era enviado; agora vai por último e raramente.
Fault-wrong-sender = Respondeu um módulo que não foi perguntado.
Fault-journal-slow = O disco está lento.
Fault-journal-failed = O diário não pode ser escrito.
Fault-journal-repaired = O diário estava danificado; o legível continua e o arquivo danificado fica guardado.
Fault-journal-damaged = Algo no diário não é o que foi escrito.

## Way

Way-drained = Do que foi drenado.
Way-filled = Do que devia entrar.
Way-ran-out = Do que saiu pelo bujão de nível.

## LampState

LampState-too-cold = Abaixo da faixa.
LampState-right = Na faixa.
LampState-too-hot = Acima da faixa.

## Step

Step-prepare = Prepare: cavaletes, nivelado, ventilação, ferramentas, recipientes; o bujão de abastecimento abre antes de drenar.
Step-drain = Drene e meça o que saiu e a que temperatura.
Step-fill = Abasteça o que saiu e o extra dos dados do veículo.
Step-circulate = Ligue o motor; freio pisado, mova o seletor pelas posições.
Step-window = Espere a temperatura certa.
Step-run-out = Abra o bujão de nível e deixe sair o excesso.
Step-trickle = O jato virou um fio fino.
Step-close = Feche o bujão de nível.
Step-torque = Aperte os bujões com os torques dos dados do veículo.
Step-test-drive = Rode um trecho curto, procure vazamentos.
Step-recheck = Dias depois verifique o nível de novo, a frio.

## Hint

Hint-four-stands = Quatro cavaletes ou um elevador próprio.
Hint-inclinometer = Inclinômetro, telefone ou régua.
Hint-exhaust-hose = Mangueira de escape.
Hint-measuring-jug = Jarra de medida.
Hint-thermometer = Termômetro.
Hint-tray = Bandeja.
Hint-gloves-and-glasses = Luvas, óculos.
Hint-new-fluid = Óleo novo.
Hint-pump = Bomba, ou funil com mangueira.
Hint-empty-jug = Jarra de medida vazia.
Hint-lamp = Lâmpada.
Hint-torque-wrench = Torquímetro.
Hint-new-seals = Vedações novas, como indica o fabricante.
Hint-its-own-gauge = A vareta própria do veículo.
Hint-cloth = Pano sem fiapos.
Hint-fill-stated = Abasteça a quantidade indicada, medida.
Hint-fill-there = Abasteça pela abertura que se olha: o que saiu.
Hint-only-drips = Só pinga.
Hint-close-by-hand = Feche à mão.
Hint-no-port-here = Aqui não se abre bujão: a vareta é lida no tubo, em mm.
Hint-read-twice = Limpe, empurre até o batente, tire, leia; depois outra vez.
Hint-two-must-agree = Valem duas que concordem em 2 mm. Sem limpar ou fora do batente não diz nada.
Hint-clean-the-cap = Limpe primeiro em volta da tampa; tampa de volta entre duas olhadas.
Hint-air-springs = Modo de elevação ligado, a carroceria presa por cavaletes ou elevador antes de alguém entrar embaixo.
Hint-orange = Laranja é alta tensão: só para pessoa treinada, nunca se corta nem se move.
Hint-on-a-lift = No elevador: P, freio de estacionamento, saia. Suba, desça nas travas; ninguém embaixo enquanto se move.
Hint-sit-down-first = Sente-se antes de o outro entrar embaixo; saia só quando embaixo estiver livre.
Hint-wash-hands = Luvas postas, lave com sabão, troque a roupa encharcada.
Hint-photo-if-black = Preto, queimado, com metal: uma foto, e o cliente decide antes de continuar.
Hint-never-what-ran-out = Só óleo novo, nunca o que saiu.
Hint-out-of-a-pit = Fora da vala até a hora, com a mangueira posta.
Hint-wipe-around = Limpe primeiro em volta do bujão, e a mangueira e a bomba.
Hint-new-washer = A arruela nova vai no bujão enquanto sai.
Hint-fan-may-start = O ventilador pode ligar sozinho com o motor desligado: mãos longe.
Hint-wipe-while-hot = Quente, limpe com pano seco; borrife só a frio, motor desligado.
Hint-all-but-the-stands = Tudo menos os cavaletes, até o motor ligar.
Hint-brake-any-time = O freio a qualquer momento; posições só com o motor ligado.
Hint-jug-may-wait = A jarra pode ser lida depois.

## The report: what the customer reads

date = { $day } de { $month ->
    [1] janeiro
    [2] fevereiro
    [3] março
    [4] abril
    [5] maio
    [6] junho
    [7] julho
    [8] agosto
    [9] setembro
    [10] outubro
    [11] novembro
   *[12] dezembro
} de { $year }
report-title = Relatório do óleo da transmissão
report-of-job = Trabalho { $job }, { $day }
times-from-to = { $from } a { $to }
times-since = desde { $from }
label-and-value = { $label }: { $value }
job-not-ended = O trabalho não está terminado.
what-was-done = O que foi feito?
is-it-right = O nível do óleo está certo?
may-i-drive = Posso rodar?
when-to-come-again = Quando devo voltar?
what-it-costs = Quanto custa?
what-you-should-know = O que mais deve saber
answer-yes = Sim.
answer-probably = Provavelmente.
answer-no = Não.
done-changed = O óleo da transmissão foi trocado: saíram { $drained }, entraram { $filled } de óleo novo.
done-only-drained = Saíram { $drained } de óleo. Nenhum óleo novo foi anotado.
done-only-filled = Entraram { $filled } de óleo novo.
done-nothing-entered = Nenhuma quantidade de óleo foi anotada.
done-checked = O nível do óleo da transmissão foi verificado.
done-checked-again = O nível do óleo foi verificado de novo após o trabalho { $job }.
done-fresh-share = { $percent } % do óleo nele é novo agora.
drive-not-before-the-end = Só depois que o trabalho terminar.
drive-not-said = Este relatório não diz. Pergunte à oficina antes de rodar.
again-not-right = Ainda não está pronto. A oficina tem que ajustar o nível do óleo.
days-and = { $days } e { $last }
again-no-day = Nenhum dia foi indicado.
again-on = { $days }. Deixe parado na noite anterior: o nível é verificado a frio.
customer-other-cause = O nível do óleo estava certo: a falha tem outra causa. Só o óleo novo não resolve.
customer-driven-low = Rodou com pouco óleo. Isso pode ter causado desgaste.
customer-ask-history = Faltava óleo, mas não se vê vazamento. Quem mexeu por último?
customer-filled-wrong = Antes deste trabalho havia óleo demais.
customer-worn = O óleo velho estava preto, queimado ou com metal: há desgaste por dentro. Pergunte o que a oficina aconselha.
customer-water-in = O óleo velho estava leitoso: entrou água ou líquido de arrefecimento. É preciso achar a causa.
customer-codes = O veículo guarda códigos de falha: { $codes }. Pergunte à oficina o que significam.
customer-guessed = Alguns dados do veículo são supostos. Por isso o nível é conhecido com menos exatidão.
label-not-confirmed = Não confirmado
label-vehicle = Veículo
label-vin = Número do chassi (VIN)
label-odometer = Hodômetro
label-date = Quando
label-workshop = Oficina
label-technician = Técnico
label-fluid = Óleo
label-batch = Lote na embalagem
label-cost = Custo
sign-technician = Técnico, data
sign-customer = Cliente, data

## The report: what the next technician reads

for-the-next-technician = Para o próximo técnico
label-guessed = Suposto nos dados do veículo
guesses-cost = Conhecido em ±{ $with } com o suposto, em ±{ $without } sem.
guess-that-helps-most = O que mais ajudaria: { $what }. Então ±{ $within }.
label-recheck = Nova verificação
recheck-compared = Ficou { $left }, achou-se { $found }: mudou { $change }, ±{ $within }.
recheck-agrees = Isso cabe no que se conhece dos dois.
recheck-differs = Isso é mais que a incerteza dos dois.
recheck-not-comparable = Os dois não podem ser comparados.
label-told-before = Queixa antes
label-told-after = Com o nível ajustado
label-level-error = Erro de nível
level-error-is = { $amount }, ±{ $within } (k = 2); { $height } no tubo de transbordo. Mais é demais.
label-band = Temperatura certa
band-by = { $low } a { $high }, lido por: { $signal }
label-torques = Torques
as-the-maker-says = como indica o fabricante
label-data = Dados do veículo
label-link = Lido por
entry-all-by-people = Sem adaptador: tudo foi anotado por pessoas.
label-readings = Leituras
readings-read = { $count }, com no máximo { $age } ms.
readings-told = { $count }, anotadas por pessoas.
readings-apart = Com no máximo { $seconds } s entre elas.
readings-pauses = Pausas de mais de 5 s: { $count }, a maior { $seconds } s.
readings-losses = Contato perdido: { $count } ×.
readings-restarts = Programa iniciado de novo: { $count } ×.
readings-known-at-closing = Incerteza padrão ao fechar: { $u }.
section-wrong = O que estava errado e o que fazer
section-temperature = Temperatura ao longo do tempo
section-budget = Erro de nível e do que se compõe
section-balance = Quantidades medidas
section-codes-and-fluid = Códigos de falha e óleo velho
section-old-fluid = Óleo velho
section-steps = Passos
section-told = O que foi anotado e quando
section-on-the-way = O que aconteceu no caminho
section-stops = Avisos mostrados
section-photos = Fotos
section-cautions = Cuidados mostrados
budget-cause = Causa
budget-amount = Quantidade
budget-u = Incerteza padrão
budget-together = No total, ± com k = 2
balance-drained = drenado
balance-filled = abastecido
balance-ran-out = saiu
balance-with-parts = com peças
balance-spilled = derramado, a olho
balance-kept = guardado
balance-expected = Deve sair
balance-closure = Saiu menos o que devia
amount-and-uncertainty = { $amount }, incerteza padrão { $u }
balance-fresh = Óleo novo
balance-waste = Óleo usado
codes-before = Códigos de falha no início
codes-after = Novos durante o trabalho
codes-none-told = o veículo não indicou nenhum
codes-nobody-read = não lidos: não havia adaptador
old-fluid-not-entered = Ninguém anotou como estava.
state-open = não iniciado
state-started = iniciado
state-done = feito
state-failed = deu errado
state-undone = retirado
who-under = embaixo
who-inside = dentro
who-vehicle = veículo
who-person = uma pessoa
entry-at = { $what } a { $celsius }
entry-spilled = Derramado { $amount }, a olho.
as-the-data-says = como dizem os dados do veículo
entry-kept = Guardado { $amount }
entry-level = Medido: frente { $pitch }, lado esquerdo { $roll }
entry-corners = Alturas: frente { $front }, traseira { $rear }
entry-air = Ar exterior
engine-idling = O motor está em marcha lenta
engine-stopped = O motor está desligado
entry-below-edge = { $depth } abaixo da borda inferior
entry-gauge = A vareta marca { $depth }
entry-confirmed = Confirmado
entry-selector = Seletor
entry-photo = Foto
entry-recheck-of-job = Nova verificação do trabalho
entry-identifier = Confirmado como identificador do óleo
entry-leak = Vazamento
entry-alarm = Alarme
entry-ended-by-hand = Terminado à mão
entry-remark = Nota
entry-taken-back = Retirado
entries-before = antes mais { $count }, no diário
entries-of-thermometers = Leituras de termômetro: { $count }, no gráfico
more-in-the-journal = mais { $count } no diário
column-time = Hora
column-step = Passo
column-state = Estado
column-by = Por
column-what = O quê
journal-range = Eventos { $first } a { $last } do diário. Horas em { $zone }.
label-seal = Selo
seal-is-checked-by = { $command } mostra se o registro foi alterado.
doubt-unread = O evento { $event } não pode ser lido: { $why }.
doubt-changed = Os eventos { $first } a { $last } não estão como foram escritos: faltam ou foram alterados.
plot-no-temperature = Nenhuma temperatura foi registrada.
plot-from-to = De { $from } a { $to }.
plot-was-right = A temperatura estava certa (hachurado) do minuto { $from } ao { $to }.
plot-never-right = A temperatura nunca esteve certa.
plot-port-was-open = O bujão de nível ficou aberto do minuto { $from } ao { $to }, fechado a { $celsius }.
plot-axis = minutos desde o início; { $unit }
plot-port-open = aberto
pipe-drawn = O tubo de transbordo: temperatura certa { $low } a { $high }.
pipe-drawn-closed = O tubo de transbordo: temperatura certa { $low } a { $high }. Fechado a { $celsius }.
offer-odometer = O hodômetro, com unidade
offer-technician = Quem fez o trabalho
offer-workshop = Qual oficina
offer-fluid = O óleo, como diz a embalagem
offer-batch = O lote na embalagem
offer-cost = Quanto custa, com moeda

## The board of many bays

bay-is-quiet = Nenhum serviço em curso aqui.
bay-is-not-heard = Nada chega. Vá ver.
board-empty = Ainda não chega nenhum posto por { $broker }.
board-broker-lost = { $broker } não responde. O que está aqui é antigo.
board-keys = Digite para procurar. Ctrl-C sai.
board-sought = Procura: { $text }

## The plan

plan-title = Plano: { $sheet }
plan-buy = Comprar
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = Abastecer
plan-fill-says = cerca de { $amount }: { $parts }
plan-one-drain = uma drenagem de { $amount }
plan-drains = { $count } drenagens de { $amount }
plan-for-parts = { $amount } por filtro, resfriador e cárter
plan-the-extra = o extra
plan-hand-in = cerca de { $amount }, para entregar
plan-fresh = Óleo novo depois
plan-at-best = { $percent } % no máximo
plan-runs-out = Vai sair
plan-runs-out-says = cerca de { $amount } a { $celsius }, se o nível estava certo antes
plan-trickle = Até o fio fino
plan-trickle-says = cerca de { $seconds } s após abrir: um guia, nunca uma decisão
plan-unknown = não se pode dizer
plan-hot = Em lugares quentes
plan-hot-says = { $low } a { $high }, a partir de { $air } fora: o veículo mostra, ou anota-se no início
plan-opens = Chega a temperatura certa
plan-opens-says = { $minutes } após uma partida a frio a { $air }: um carro comum, pode errar até o dobro ou a metade
plan-lasts = Continua certa
plan-lasts-says = { $minutes }, com a mesma dúvida
plan-minutes = { $low } a { $high } min
plan-hot-day = Dia quente
plan-day-second-band = Hoje vale a faixa para lugares quentes. Se o veículo não mostra o ar exterior, anote no início.
plan-day-below-second = O óleo começa perto da faixa: a temperatura certa vem logo e dura pouco. Comece no fresco da manhã. A faixa para lugares quentes ainda não vale.
plan-day-no-second = O óleo começa perto da faixa: a temperatura certa vem logo e dura pouco. Comece no fresco da manhã. Os dados não têm faixa para lugares quentes; o fabricante talvez tenha.
plan-degree = Um grau
plan-degree-falls = { $amount } por { $degree } a mais ao fechar: fechado frio fica cheio demais, quente fica baixo
plan-degree-rises = { $amount } por { $degree } a mais ao fechar: fechado frio fica baixo, quente fica cheio demais
plan-left-out = Fora da conta
plan-leaves-out-slope = como a inclinação dos dados muda fora da faixa, e onde o óleo é retido ou solto; a dilatação está nessa inclinação
plan-leaves-out-thermostat = óleo que um termostato retém ou solta ao aquecer: só conta a dilatação
plan-tilt = Uma inclinação
plan-tilt-says = { $pitch } por 1° de frente alta, { $roll } por 1° de lado esquerdo alto: fique em até { $allowed }
plan-not-confirmed = Ninguém confirmou
plan-before-any-job = { $what }: nenhum trabalho começa antes de confirmar
plan-guessed = Suposto
plan-guess-costs = { $what }: custa { $amount } do ±
plan-guess-is-free = { $what }: não conta no ±
plan-off = O que custa errar
plan-off-by = Desvio
plan-off-pipe = No tubo de transbordo
plan-off-temperature = temperatura { $by }
plan-off-nose = frente alta { $by }
plan-off-left = lado esquerdo alto { $by }
plan-still-right = ainda certo
plan-too-much = demais
plan-checklist = Lista
plan-at-hand = À mão
plan-beware = Cuidado
plan-out-of-order = Pode ser anotado fora de ordem
plan-stop-rules = Quando parar, em qualquer passo
who-either = qualquer um
line-exchanges = Drene e abasteça { $count } vezes. No meio, deixe o motor girar pelas posições.
line-selector = { $positions }: { $dwell } s em cada, { $rounds } rodadas
line-look = Olhar: { $look }
line-looks = Olhe { $count } vezes, uma após a outra.
line-look-number = Olhada { $number }: { $look }
line-wave = Uma onda pequena a cada { $seconds } s não é o excesso: olhe entre duas.
line-stand = Não nivelado: { $how }. Meça, a olho não vale.
stand-nose-up = { $degrees } frente alta
stand-nose-down = { $degrees } frente baixa
stand-left-up = { $degrees } lado esquerdo alto
stand-right-up = { $degrees } lado direito alto
look-idling = em marcha lenta
look-engine-off = motor desligado
look-ready-off = READY desligado
look-in-position = em { $position }
look-after = após { $seconds } s
look-between = de { $from } a { $to } s após parar
look-in-band = na temperatura certa
sign-thread = o excesso sai até o fio fino
sign-first-drips = seco no começo; pinga antes do fim da faixa
sign-drips = sai até só pingar
sign-below-edge = o óleo fica de { $low } a { $high } abaixo da borda inferior
sign-at-edge = o óleo fica na borda inferior
sign-chart = a vareta marca o que a tabela permite
sign-amounts = as quantidades estão certas
look-then-add = fechado, depois mais { $amount }
