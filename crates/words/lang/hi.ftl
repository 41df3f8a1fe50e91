### unchecked
# No native speaker has checked this language. English stands beside the cautions until one has.

## Advice

Advice-start-job = गाड़ी चुनिए। फिर काम शुरू कीजिए।
Advice-prepare-vehicle = गाड़ी चार जैक स्टैंड या लिफ़्ट पर रखिए। समतल, एग्जॉस्ट होज़ का सिरा बाहर।
Advice-shim-stands = बाहर आइए। फिर जैक स्टैंड से गाड़ी समतल कीजिए, दोबारा नापिए।
Advice-park = लीवर P में, हैंड ब्रेक लगा हुआ। ज़मीन वाले पहियों पर गुटके लगाइए।
Advice-read-container = डिब्बा ज़ोर से पढ़िए, गाड़ी का डेटा सामने रखकर। शब्द वही हैं?
Advice-open-fill-port = पहले फिलर प्लग खोलिए। उसके बाद ही गियर ऑयल निकालिए।
Advice-cool-before-drain = ठंडा होने दीजिए, फिर गियर ऑयल निकालिए। 60 °C से ऊपर तेल जला देता है।
Advice-switch-ready-off = Ready बंद कीजिए, चाबी नीचे वाले साथी को दीजिए। इंजन अपने आप चालू हो सकता है।
Advice-drain = गियर ऑयल निकालिए, ओवरफ्लो पाइप भी निकालिए। नापिए कितना और कितना गर्म।
Advice-drain-again = इंजन बंद, दोनों प्लग बंद रखिए। फिर गियर ऑयल निकालिए, नया एक बार और भरिए।
Advice-put-pipe-in = ओवरफ्लो पाइप हाथ से आख़िर तक लगाइए। ज़्यादा कसने पर वह चटकता है।
Advice-was-pipe-out = तेल थोड़ा निकला: क्या ओवरफ्लो पाइप बाहर था? तो उसे वापस लगाइए।
Advice-is-pipe-in = क्या ओवरफ्लो पाइप वापस लगा है? उसके बिना ऑयल पैन ख़ाली हो जाता है।
Advice-fill = नया गियर ऑयल भरिए: जितना निकला, और अतिरिक्त।
Advice-close-up = दोनों प्लग हाथ से लगाइए। भरने की नली और ट्रे हटाइए।
Advice-put-pin-in = कूलर पिन लगाइए। उसके बाद ही इंजन चालू होगा।
Advice-lead-exhaust = एग्जॉस्ट पर होज़ लगाइए, सिरा बाहर। खुले दरवाज़े काफ़ी नहीं हैं।
Advice-check-exhaust = लंबे समय से आइडल: एग्जॉस्ट होज़ लगा है? सिरदर्द हो: पहले खुली हवा में जाइए।
Advice-come-out = बाहर आइए। फिर कहिए “मैं बाहर हूँ”।
Advice-stay-out = बाहर रहिए। इंजन चालू होता है, गियर लीवर हिलता है।
Advice-wait-for-clear = रुकिए। साथी “मैं बाहर हूँ” कहे, तभी आगे बढ़िए।
Advice-start-engine = इंजन चालू कीजिए। ब्रेक दबाए रखिए, लीवर P में रखिए।
Advice-hold-brake = ब्रेक दबाए रखिए। गियर लीवर P में।
Advice-cycle-selector = ब्रेक दबाए रखिए। गियर लीवर बारी-बारी पोज़ीशनों में ले जाइए।
Advice-switch-mode-on = सर्विस मोड चालू कीजिए, स्टार्ट-स्टॉप बंद कीजिए। हो जाए तो बताइए।
Advice-confirm-open = एक बात बाक़ी है। उसे ठीक कीजिए, फिर पुष्टि कीजिए।
Advice-stay-clear = बाहर रहिए। सही तापमान बाद में आएगा।
Advice-keep-idling = P में आइडल पर रखिए। पैर पैडल से हटाइए, हाथ दूर रखिए।
Advice-may-stop = इंजन पहले भी इस समय अपने आप बंद हुआ। हाथ दूर रखिए।
Advice-keep-idling-until-closed = आइडल पर रखिए, नीचे से “प्लग लगा” सुनने तक।
Advice-be-ready = गाड़ी के नीचे जाइए। लेवल प्लग बंद रखिए।
Advice-look-position = ब्रेक दबाए रखिए। गियर लीवर जाँच की पोज़ीशन में।
Advice-settle = तेल ठहरने तक बाहर रहिए। सब कुछ वैसा ही रहने दीजिए।
Advice-open-port = लेवल प्लग अभी खोलिए, बग़ल से। चश्मा पहने रहिए।
Advice-watch-stream = बग़ल से देखिए। पतली धार हो तब बताइए।
Advice-watch-drips = बग़ल से देखिए। टपकना शुरू हो तब बताइए।
Advice-open-port-off = इंजन बंद ही रहने दीजिए। लेवल प्लग अभी खोलिए, बग़ल से।
Advice-watch-off = इंजन बंद ही रहने दीजिए। देखिए: पतली धार हो तब बताइए।
Advice-look-at-edge = देखिए तेल कहाँ तक है। बताइए किनारे पर, या कितना नीचे।
Advice-read-gauge = गेज पोंछिए, पूरा अंदर डालिए। मिलीमीटर बताइए।
Advice-read-again = गेज पोंछिए, दोबारा पढ़िए। दो रीडिंग 2 mm तक मिलनी चाहिए।
Advice-draw-out = तेल ज़्यादा है। फिलर ट्यूब से थोड़ा खींचिए, नापकर।
Advice-let-some = तेल ज़्यादा है। लेवल सही होने तक थोड़ा बहने दीजिए।
Advice-still-flowing = 15 s बाद भी बह रहा है? बताइए; नहीं तो लेवल प्लग लगाइए।
Advice-close-port = लेवल प्लग तुरंत हाथ से लगाइए।
Advice-close-port-wait = लेवल प्लग लगाइए। तापमान ग़लत है।
Advice-close-port-cool = लेवल प्लग लगाइए। बहुत गर्म।
Advice-close-too-much = खुला प्लग तुरंत लगाइए। ज़रूरत से ज़्यादा निकला: ग़लत प्लग?
Advice-stop-and-cool = इंजन बंद कीजिए। ठंडा होने दीजिए, फिर दोबारा आइडल पर रखिए।
Advice-stop-now = इंजन तुरंत बंद कीजिए। लीवर P में।
Advice-stop-engine = इंजन बंद कीजिए। चाबी निकालिए, अपने हाथ में रखिए।
Advice-keep-off = इंजन बंद ही रहने दीजिए।
Advice-keep-closed = लेवल प्लग बंद रखिए। पहले इंजन बंद होगा।
Advice-stay-away = बाहर रहिए। पहले तेल को ठंडा होना है।
Advice-answer = जवाब दीजिए: क्या आप ठीक हैं?
Advice-call-below = नीचे वाले साथी को पुकारिए। जवाब न मिले: इंजन बंद कीजिए, जाकर देखिए।
Advice-charge-battery = बैटरी कमज़ोर है। इंजन बंद कीजिए, बाहर आइए, फिर चार्ज कीजिए।
Advice-fill-first = इंजन बंद ही रहने दीजिए। पहले जितना कम है उतना भरिए।
Advice-fill-more = लेवल प्लग हाथ से लगाइए। तेल कम है: और भरिए।
Advice-fill-to-edge = इंजन बंद, लेवल प्लग खुला: वहाँ से बहने तक भरिए। नापिए।
Advice-add-amount = लेवल प्लग हाथ से लगाइए। फिर गाड़ी के डेटा की मात्रा भरिए।
Advice-fill-here = तेल कम है। इसी छेद से और भरिए।
Advice-hose-out = भरने की नली निकालिए। बताइए क्या आता है: धार, बूँदें या कुछ नहीं।
Advice-look-why-low = भरना रोकिए। रिसाव या ग़लत प्लग खोजिए।
Advice-drain-wrong = ग़लत तेल: इंजन बंद ही रहने दीजिए। गियर ऑयल निकालिए, सही वाला भरिए।
Advice-read-jug = पहले नापने का जग पढ़िए: बताइए कितना बहकर निकला।
Advice-let-out = तेल ज़्यादा है: इंजन बंद ही रहने दीजिए। फ़ालतू तेल बहने दीजिए, नापकर।
Advice-soak-up = गिरा तेल सोखिए। एग्जॉस्ट ठंडा होने पर उसे पोंछिए।
Advice-check-adapter = लेवल प्लग हाथ से लगाइए। फिर अडैप्टर का कनेक्टर जाँचिए।
Advice-ask-engine = इंजन आइडल पर है, लाल लैंप नहीं जलता? तो बताइए।
Advice-say-engine = क्या इंजन बंद है? बताइए इंजन क्या करता है।
Advice-close-port-engine = लेवल प्लग लगाइए। इंजन आइडल पर है, यह किसी ने नहीं बताया।
Advice-feel-pan = 8 h खड़ी रही, ऑयल पैन हवा जितना ठंडा? तो पुष्टि कीजिए।
Advice-read-inside = गाड़ी अपने गियर ऑयल का क्या दिखाती है? बताइए।
Advice-push-adapter = इंजन जैसा है वैसा रहने दीजिए। अडैप्टर दोबारा दबाकर लगाइए।
Advice-check-sensor = लेवल प्लग बंद रखिए। ऑयल पैन को मैट टेप पर नापिए।
Advice-tighten = दोनों प्लग लगे रहने दीजिए। पहले इंजन बंद, फिर उन्हें कसिए।
Advice-take-pin-out = कूलर पिन निकालिए, इंजन बंद। नहीं तो गियरबॉक्स ज़्यादा गर्म होता है।
Advice-wipe-dry = कपड़े से पोंछकर सुखाइए। बाहर आइए, कहिए “मैं बाहर हूँ”।
Advice-look-for-leaks = 5 min आइडल के बाद बूँदें खोजिए।
Advice-look-for-drops = प्लग के आसपास बूँदें खोजिए।
Advice-mend-leak = इंजन बंद। पहले रिसाव ठीक कीजिए।
Advice-refit = कवर और पहिया वापस लगाइए। गाड़ी ज़मीन पर आए, तब नट टॉर्क से कसिए।
Advice-test-drive = गाड़ी ज़मीन पर उतारिए। थोड़ी दूर धीरे चलाइए, फिर रिसाव खोजिए।
Advice-not-driven = गाड़ी खड़ी रखिए, मत चलाइए। गियर ऑयल कम है।
Advice-finish = रिपोर्ट पूरी कीजिए।
Advice-recheck = रिपोर्ट में लिखे दिन तेल का लेवल दोबारा जाँचिए, ठंडी गाड़ी पर।
Advice-set-again = तेल का लेवल सेट नहीं हुआ। रिपोर्ट देखिए, फिर दोबारा जाँचिए।
Advice-wait = अंदर रुकिए। हाथ दूर रखिए।
Advice-fresh-air = सब लोग खुली हवा में जाइए। मदद बुलाइए।
Advice-get-out = सब लोग बाहर निकलिए। फ़ायर ब्रिगेड बुलाइए।
Advice-engine-off-caught = इंजन तुरंत बंद कीजिए, P, ब्रेक दबाए रखिए। मदद बुलाइए।
Advice-hold-still = हिले बिना रहिए: गाड़ी जहाँ है वहीं रहे, कोई न खींचे। मदद आ रही है।
Advice-cool-burn = जली जगह पर ठंडा बहता पानी डालिए, 20 min। बर्फ़ दूर रखिए।
Advice-help-burn = बाहर आने में मदद कीजिए। लेवल प्लग बगल से लगाइए, फिर इंजन बंद कीजिए।

## Caution

Caution-maker-first = जहाँ फ़र्क़ हो: निर्माता का पाठ, स्थानीय नियम और मान्य तरीक़ा मानिए।
Caution-four-stands = चार जैक स्टैंड, या लॉक पर टिकी लिफ़्ट। अकेला जैक जान लेता है।
Caution-hot-fluid = दस्ताने, पूरी बाँह, चश्मा पहनिए। गियर ऑयल, ऑयल पैन और एग्जॉस्ट गर्म हैं।
Caution-running-engine = इंजन चालू है। बाल और आस्तीन बेल्ट, पंखे और शाफ़्ट से दूर रखिए।
Caution-brake-held = गाड़ी के नीचे से बाहर रहिए। ब्रेक दबाए रखिए, पहिए हवा में या गुटके लगे।
Caution-ventilation = एग्जॉस्ट गैस जान लेती है। एग्जॉस्ट होज़ लगा, सिरा बाहर: खुले दरवाज़े काफ़ी नहीं।
Caution-waste-oil = तेल अलग बर्तन में लीजिए। पुराने तेल की तरह जमा कीजिए।
Caution-overheating = बहुत गर्म। इंजन तुरंत बंद कीजिए, लीवर P में, ठंडा होने तक दूर रहिए।
Caution-low-voltage = बैटरी कमज़ोर: लाइट और पंखा बंद कीजिए। चार्ज तभी कीजिए जब इंजन बंद, नीचे कोई नहीं।
Caution-long-idling = लंबे समय से आइडल। एग्जॉस्ट होज़ लगा है, सिरा बाहर? किसी को सिरदर्द: पहले खुली हवा में जाइए।
Caution-lost-while-open = रीडिंग नहीं, लेवल प्लग खुला। उसे हाथ से लगाइए; इंजन आइडल पर रखिए, फिर अडैप्टर का कनेक्टर देखिए।
Caution-fill-port-first = पहले फिलर प्लग खोलिए। तेल निकला और फिलर प्लग जाम, तो गाड़ी चल नहीं सकती।

## Precondition

Precondition-on-stands = चार जैक स्टैंड या लिफ़्ट पर, पक्की समतल ज़मीन, हिलाकर देखा, मज़बूत।
    .short = जैक स्टैंड
Precondition-vehicle-level = गाड़ी समतल है।
    .short = गाड़ी समतल
Precondition-exhaust-outside = एग्जॉस्ट होज़ लगा, सिरा बाहर; या गाड़ी खुले में।
    .short = एग्जॉस्ट होज़
Precondition-brake-held = गियर लीवर हिलते समय ब्रेक दबा रहता है।
    .short = ब्रेक दबा
Precondition-cooler-bypass = कूलर बाईपास पिन से खुला रखा गया है।
    .short = कूलर पिन
Precondition-selector-cycled = गियर लीवर डेटा के अनुसार अपनी पोज़ीशनों में ले जाया गया।
    .short = गियर लीवर
Precondition-filled = नया गियर ऑयल भरा गया, अतिरिक्त के साथ।
    .short = भरना
Precondition-started-cold = ठंडी चालू हुई: कूलेंट और हवा बराबर थे, या 8 घंटे खड़ी थी।
    .short = ठंडा स्टार्ट
Precondition-engine-running = इंजन चालू है।
    .short = इंजन
Precondition-engine-idling = इंजन गाड़ी के डेटा की रेंज में आइडल पर है।
    .short = आइडल
Precondition-engine-off = इंजन बंद है, जैसा यह जाँच माँगती है।
    .short = इंजन बंद
Precondition-settled = तेल उतनी देर ठहरा जितनी गाड़ी का डेटा कहता है।
    .short = तेल ठहरना
Precondition-in-position = गियर लीवर जाँच के लिए डेटा वाली पोज़ीशन में है।
    .short = जाँच की पोज़ीशन
Precondition-standing-still = गाड़ी खड़ी है।
    .short = गाड़ी खड़ी
Precondition-parked = गियर लीवर P में, हैंड ब्रेक लगा और पकड़ता है। ज़मीन वाले पहियों पर गुटके।
    .short = हैंड ब्रेक
Precondition-fill-port-open = फिलर प्लग खोला गया: वह घूमता है।
    .short = फिलर प्लग
Precondition-fluid-right = डिब्बा डेटा के सामने ज़ोर से पढ़ा गया: वही है।
    .short = डिब्बा पढ़ा
Precondition-pipe-in = ओवरफ्लो पाइप वापस लगा, हाथ से आख़िर तक। फिर उसका छोटा टॉर्क।
    .short = ओवरफ्लो पाइप लगा
Precondition-closed-up = लेवल प्लग और फिलर प्लग हाथ से लगे, ट्रे और नली हटी।
    .short = प्लग लगे, ट्रे हटी
Precondition-clear = नीचे वाला साथी बाहर आया, औज़ार भी, और उसने बताया।
    .short = साथी बाहर
Precondition-bypass-out = कूलर पिन निकला हुआ है।
    .short = कूलर पिन निकला
Precondition-no-leak = इंजन आइडल पर, नीचे सूखा: कोई रिसाव नहीं दिखा।
    .short = रिसाव जाँच
Precondition-refitted = कवर और पहिया वापस लगे, नट ज़मीन पर कसे गए।
    .short = कवर, पहिया
Precondition-mode-on = सर्विस मोड चालू, स्टार्ट-स्टॉप बंद।
    .short = सर्विस मोड
Precondition-ready-off = Ready बंद, चाबी नीचे वाले साथी के पास।
    .short = Ready बंद
Precondition-dry = गिरा तेल सोखा गया, एग्जॉस्ट पोंछा गया।
    .short = गिरा तेल सूखा
Precondition-all-safe = सब लोग ख़तरे से बाहर हैं।
    .short = सब सुरक्षित

## Reason

Reason-in-band = गियर ऑयल रेंज के अंदर है, अनिश्चितता मिलाकर।
Reason-no-band = यह जाँच कोई तापमान नहीं माँगती।
Reason-below-band = गियर ऑयल अब तक रेंज से नीचे है।
    .remedy = इंजन आइडल पर रखिए; पूर्वानुमान बताता है कितनी देर।
Reason-above-band = गियर ऑयल रेंज से ऊपर है।
    .remedy = लेवल प्लग बंद रखिए, इंजन बंद कीजिए और ठंडा होने दीजिए।
Reason-guard-band = रेंज की हद के इतने पास कि शायद रेंज से बाहर हो।
    .remedy = रुकिए; जल्दी साफ़ होगा।
Reason-hysteresis = रेंज में बस आया, या स्टार्ट के बाद तेल मिल रहा है।
    .remedy = रुकिए; जल्दी साफ़ होगा।
Reason-too-uncertain = तापमान इस रेंज के लिए काफ़ी पक्का नहीं है।
    .remedy = बेहतर रीडिंग दीजिए: गियर ऑयल का आइडेंटिफ़ायर, या टेप या मैट पेंट पर थर्मामीटर।
Reason-no-reading = अब तक तापमान की कोई रीडिंग नहीं है।
    .remedy = इग्निशन चालू हो तो पहली रीडिंग कुछ सेकंड में आती है।
Reason-stale = तापमान की आख़िरी रीडिंग बहुत पुरानी है।
    .remedy = वह अपने आप लौटती है; न लौटे तो अडैप्टर का कनेक्टर जाँचिए।
Reason-link-lost = गाड़ी से संपर्क नहीं है।
    .remedy = अडैप्टर का कनेक्टर और इग्निशन जाँचिए; संपर्क अपने आप लौटता है।
Reason-frozen = तापमान को बदलना था, पर वह नहीं बदला: सेंसर शायद अटका है।
    .remedy = ऑयल पैन पर थर्मामीटर से मिलाइए; फ़र्क़ हो तो सेंसर या वायरिंग ख़राब है।
Reason-stepped-away = तापमान इतना उछला जितना तेल गर्म या ठंडा नहीं हो सकता।
    .remedy = सेंसर का कनेक्टर जाँचिए; रीडिंग फिर मिलने तक रुकिए।
Reason-not-alive = तापमान अब तक नहीं बदला। इसलिए सेंसर परखा नहीं गया।
    .remedy = ऑयल पैन पर थर्मामीटर से मिलाइए; फ़र्क़ हो तो सेंसर या वायरिंग ख़राब है।
Reason-copies-coolant = तेल की रीडिंग हमेशा कूलेंट के बराबर है: शायद कंट्रोल यूनिट वही दोहराती है।
    .remedy = भरोसा करने से पहले ऑयल पैन पर थर्मामीटर से मिलाइए।
Reason-disagrees = तापमान कूलेंट, हवा, स्टार्ट या थर्मामीटर से नहीं मिलता।
    .remedy = ऑयल पैन को टेप या मैट पेंट पर थर्मामीटर से नापिए। डेटा का आइडेंटिफ़ायर और बताई गई सतह जाँचिए।
Reason-units-disagree = कंट्रोल यूनिटें अलग तापमान बताती हैं। कौन सही है, किसी ने नहीं बताया।
    .remedy = थर्मामीटर से पता कीजिए कौन सही है। गाड़ी के डेटा में लिखिए: `check.from`।
Reason-other-vehicle = अडैप्टर इस काम की गाड़ी में नहीं, दूसरी गाड़ी में लगा है।
    .remedy = अडैप्टर वापस इस काम की गाड़ी में लगाइए।
Reason-sensor-code = गियर ऑयल तापमान सेंसर का फ़ॉल्ट कोड दर्ज है।
    .remedy = पहले सेंसर या उसका सर्किट ठीक कीजिए; इस तापमान पर भरोसा नहीं।
Reason-overheat-code = गियर ऑयल के ज़्यादा गर्म होने का फ़ॉल्ट कोड दर्ज है।
    .remedy = पहले पता कीजिए तेल ज़्यादा गर्म क्यों हुआ, फिर लेवल सेट कीजिए।
Reason-implausible = यह रीडिंग गियर ऑयल की हो ही नहीं सकती।
    .remedy = सेंसर का कनेक्टर जाँचिए; रीडिंग फिर मिलने तक रुकिए।
Reason-precondition-open = लेवल सेट करने से पहले की एक बात की पुष्टि बाक़ी है।
    .remedy = बाक़ी बातों की सूची देखिए।
Reason-no-job = कोई काम शुरू नहीं हुआ।

## Trouble

Trouble-port-gone = अडैप्टर से कनेक्शन टूट गया है।
    .remedy = अडैप्टर का कनेक्टर और तार जाँचिए; वह अपने आप लौटता है।
Trouble-adapter-silent = अडैप्टर जवाब नहीं देता।
    .remedy = अडैप्टर का कनेक्टर जाँचिए; वह अपने आप लौटता है।
Trouble-adapter-mute = अडैप्टर चुप है, जबकि उसका पोर्ट नए सिरे से खोला गया।
    .remedy = अडैप्टर निकालकर फिर लगाइए; फ़ायदा न हो तो दूसरा लीजिए।
Trouble-out-of-step = अडैप्टर जवाब देता है, पर पूछी गई बात का नहीं।
    .remedy = अडैप्टर निकालकर फिर लगाइए; फ़ायदा न हो तो दूसरा लीजिए।
Trouble-adapter-fault = अडैप्टर अपनी ही ख़राबी बताता है।
    .remedy = अडैप्टर निकालकर फिर लगाइए; फ़ायदा न हो तो दूसरा लीजिए।
Trouble-restarting = अडैप्टर अपनी सेटिंग खो बैठा, फिर से सेट हो रहा है।
    .remedy = वह अपने आप लौटता है; बार-बार हो तो उसका कनेक्टर जाँचिए।
Trouble-modem = इस पोर्ट पर मॉडेम जवाब देता है।
    .remedy = दूसरा डिवाइस बताइए: यह पोर्ट अडैप्टर का नहीं है।
Trouble-loop = भेजा हुआ ही लौटता है: ख़ाली तार, या बिना सप्लाई का अडैप्टर।
    .remedy = अडैप्टर गाड़ी में लगाइए: वहीं से उसे सप्लाई मिलती है।
Trouble-noise = इस पोर्ट से सिर्फ़ शोर आता है।
    .remedy = डिवाइस के साथ अडैप्टर की गति बताइए, या दूसरा डिवाइस बताइए।
Trouble-talk = जो जवाब देता है, वह डायग्नोस्टिक अडैप्टर की सेटिंग नहीं लेता।
    .remedy = अडैप्टर निकालकर फिर लगाइए; फ़ायदा न हो तो दूसरा लीजिए।
Trouble-not-understood = गाड़ी से क्या पूछना है, अडैप्टर नहीं समझता।
    .remedy = दूसरा अडैप्टर लीजिए।
Trouble-senders-unknown = कई कंट्रोल यूनिट जवाब देती हैं। किसने क्या भेजा, अडैप्टर नहीं बताता।
    .remedy = दूसरा अडैप्टर लीजिए, जो भेजने वाले का नाम बताए।
Trouble-sender-unknown = कौन-सी कंट्रोल यूनिट जवाब देती है, अडैप्टर नहीं बताता।
    .remedy = दूसरा अडैप्टर लीजिए, जो भेजने वाले का नाम बताए।
Trouble-protocol-unknown = गाड़ी जवाब देती है, पर किस बस पर, अडैप्टर नहीं बताता।
    .remedy = दूसरा अडैप्टर लीजिए।
Trouble-unreadable = गाड़ी जवाब देती है, पर अडैप्टर का पाठ पढ़ा नहीं जाता।
    .remedy = अपने आप फिर पूछा जाता है; ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-late-reply = अडैप्टर समय पर जवाब पूरा नहीं करता।
    .remedy = अपने आप फिर पूछा जाता है; ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-interrupted = अडैप्टर पूछी गई बात बीच में तोड़ देता है।
    .remedy = अपने आप फिर पूछा जाता है; ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-spoilt = जवाब रास्ते में बिगड़ जाते हैं।
    .remedy = कनेक्टर और तार जाँचिए; अपने आप फिर पूछा जाता है। ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-other-request = जवाब दूसरे सवालों के हैं।
    .remedy = अपने आप फिर पूछा जाता है; ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-repeats = अडैप्टर सिर्फ़ पुराने जवाब दोहराता है।
    .remedy = अडैप्टर निकालकर फिर लगाइए; फ़ायदा न हो तो दूसरा लीजिए।
Trouble-unsteady = हर जवाब में मान अलग है।
    .remedy = कनेक्टर और तार जाँचिए; अपने आप फिर पूछा जाता है। ऐसा ही रहे तो दूसरा अडैप्टर लीजिए।
Trouble-vehicle-silent = गाड़ी जवाब नहीं देती।
    .remedy = इग्निशन जाँचिए, और अडैप्टर कनेक्टर में मज़बूती से लगा हो।
Trouble-search-endless = गाड़ी की खोज ख़त्म नहीं होती।
    .remedy = अपने आप फिर कोशिश होती है; अडैप्टर कनेक्टर में मज़बूती से लगाइए।
Trouble-bus-start = गाड़ी की बस चालू नहीं होती।
    .remedy = इग्निशन जाँचिए, और अडैप्टर कनेक्टर में मज़बूती से लगा हो।
Trouble-bus-trouble = गाड़ी की बस भेजे हुए को बिगाड़ती है।
    .remedy = अडैप्टर मज़बूती से लगाइए। कनेक्टर पर और कुछ न लगा हो।
Trouble-only-refusals = गाड़ी पहला सवाल भी मना कर देती है।
    .remedy = कुछ गाड़ियाँ कनेक्टर लॉक रखती हैं; तब सिर्फ़ थर्मामीटर बचता है।
Trouble-unit-silent = कोई कंट्रोल यूनिट इस सवाल का जवाब नहीं देती।
    .remedy = गाड़ी ख़ुद जवाब देती है: डेटा में हेडर और आइडेंटिफ़ायर जाँचिए।
Trouble-unit-busy = कंट्रोल यूनिट और समय माँगती है, जवाब नहीं देती।
    .remedy = ऐसा ही रहे तो गाड़ी के डेटा में आइडेंटिफ़ायर जाँचिए।
Trouble-refused-unknown = कंट्रोल यूनिट मना करती है: वह यह आइडेंटिफ़ायर नहीं जानती।
    .remedy = गाड़ी के डेटा में आइडेंटिफ़ायर और हेडर जाँचिए।
Trouble-refused-locked = कंट्रोल यूनिट मना करती है: वह यह मान लॉक रखती है।
    .remedy = कूलेंट या थर्मामीटर वाला गाड़ी का डेटा लीजिए।
Trouble-refused-now = कंट्रोल यूनिट फ़िलहाल मना करती है: हालात ठीक नहीं हैं।
    .remedy = आगे बढ़िए; जिस स्टेप में इंजन चालू है, वहाँ शायद जवाब मिले।
Trouble-refused = कंट्रोल यूनिट यह सवाल मना करती है।
    .remedy = गाड़ी के डेटा में आइडेंटिफ़ायर और हेडर जाँचिए।
Trouble-wrong-sender = जिससे पूछा गया उसकी जगह दूसरी कंट्रोल यूनिट जवाब देती है।
    .remedy = गाड़ी के डेटा में हेडर जाँचिए।
Trouble-not-addressable = डेटा वाली कंट्रोल यूनिट इस गाड़ी की बस पर नहीं मिलती।
    .remedy = गाड़ी के डेटा में हेडर जाँचिए।
Trouble-undecodable = जवाब वैसा नहीं बना जैसा गाड़ी का डेटा कहता है।
    .remedy = गाड़ी के डेटा में आइडेंटिफ़ायर का बाइट और लंबाई जाँचिए।

## Outcome

Outcome-set = तेल का लेवल सही है।
Outcome-set-low = तेल का लेवल सेट है, पर डेटा की छूट से ज़्यादा कम।
Outcome-set-high = तेल का लेवल सेट है, पर डेटा की छूट से ज़्यादा ऊँचा।
Outcome-not-set = तेल का लेवल सेट नहीं हुआ।
Outcome-set-unsure = तेल का लेवल शायद सही है।
Outcome-checked = तेल का लेवल सही था।

## Drivable

Drivable-yes = गाड़ी चला सकते हैं।
Drivable-workshop-only = गाड़ी सिर्फ़ वर्कशॉप के अंदर हिला सकते हैं।
Drivable-no = गाड़ी खड़ी रखिए, मत चलाइए; सिर्फ़ ड्राइव वाले पहिए उठाकर हटाइए।

## Meaning

Meaning-other-cause = तेल का लेवल सही था: लक्षण की वजह दूसरी है। तेल बदलना इलाज नहीं है। कोड पढ़िए।
Meaning-driven-low = गाड़ी कम तेल पर चली। फिसलन के बारे में पूछिए, कोड पढ़िए, ग्राहक को बताइए।
Meaning-ask-history = तेल कम था और रिसाव नहीं दिखता। पूछिए किसने काम किया, और कब।
Meaning-filled-wrong = तेल ज़्यादा था। ठंडे में भरा गया, या दूसरा तेल अंदर है? पूछिए।
Meaning-worn = काला, जला या धातु वाला: अंदर घिसा हुआ है। ग्राहक तय करे।
Meaning-water-in = दूधिया: पानी या कूलेंट अंदर है। खोजिए कहाँ से आता है।

## Question

Question-symptoms = गाड़ी यहाँ क्यों आई है?
Question-leaks = नीचे देखिए: रिसाव है?
Question-leak-place = रिसाव कहाँ है?
Question-fluid = पहली बूँदें: तेल कैसा दिखता है?

## FindNext

FindNext-key-on = चाबी से इग्निशन चालू कीजिए। इंजन बंद और ठंडा रहने दीजिए।
FindNext-key-off = चाबी दस मिनट बंद रखिए। फिर चाबी चालू कीजिए, इंजन बंद रहे।
FindNext-wait = इग्निशन चालू और इंजन बंद रहने दीजिए।
FindNext-charge-battery = बैटरी चार्ज कीजिए। खोज अपने आप आगे चलेगी।
FindNext-stop-engine = इंजन बंद कीजिए। खोज के लिए इंजन बंद चाहिए।
FindNext-start-engine = सब गाड़ी के नीचे से बाहर, एग्जॉस्ट होज़ का सिरा बाहर। फिर इंजन P में चालू कीजिए।
FindNext-warm = आइडल पर रखिए, गर्म होने दीजिए।
FindNext-spot = सिर्फ़ चार जैक स्टैंड पर, शाफ़्ट से दूर: ऑयल पैन नापिए। रीडिंग दर्ज कीजिए।
FindNext-cold-soak = गाड़ी रात भर खड़ी रखिए, फिर दोबारा शुरू कीजिए।
FindNext-confirm = क्या वह थर्मामीटर जितना ही दिखाता है? तो पुष्टि कीजिए।
FindNext-by-thermometer = तेल का लेवल थर्मामीटर से सेट कीजिए।
FindNext-look-at-link = अडैप्टर देखिए, फिर खोज दोबारा चलाइए।
FindNext-nothing = यहाँ और कुछ करना नहीं है।

## EngineWord

EngineWord-idling = इंजन आइडल पर है।
EngineWord-stopped = इंजन बंद है।

## Surface

Surface-tape = धातु के ऑयल पैन पर मैट टेप।
Surface-matt-paint = धातु के ऑयल पैन पर मैट पेंट।
Surface-plastic = प्लास्टिक का ऑयल पैन।
Surface-bare-metal = नंगी धातु: इन्फ़्रारेड के लिए मना, वह आसपास की चीज़ें दिखाती है।
Surface-contact = धातु के ऑयल पैन पर छूने वाला प्रोब।
Surface-stream = सीधे गियर ऑयल में प्रोब।
Surface-air = सतह नहीं: गाड़ी के नीचे की हवा।

## Narrowing

Narrowing-spot-on-tape = ऑयल पैन के टेप या मैट पेंट पर थर्मामीटर की रीडिंग।
Narrowing-air-under-vehicle = गाड़ी के नीचे की हवा का तापमान।

## Symptom

Symptom-slips = गियर में फिसलता है।
Symptom-flares = दो गियर के बीच इंजन भागता है।
Symptom-late = गियर देर से लगता है।
Symptom-hard = गियर झटके से लगता है।
Symptom-whine = सीटी जैसी आवाज़ आती है।
Symptom-shudder = गाड़ी थरथराती है।
Symptom-lamp = लैंप जल गया।
Symptom-leak = नीचे तेल दिखा।
Symptom-worked-on = हाल में किसी ने इस पर काम किया।
Symptom-none = कुछ नहीं दिखा।

## Leak

Leak-dry = सूखा।
Leak-damp = नम: कोई बूँद नहीं लटकती।
Leak-drops = बूँदें बनती हैं।
Leak-runs = तेल बहता है।

## LeakPlace

LeakPlace-pan = ऑयल पैन पर।
LeakPlace-pipe-or-plug = ओवरफ्लो पाइप या किसी प्लग पर।
LeakPlace-cooler-line = कूलर की लाइन पर।
LeakPlace-axle-seal = एक्सल की सील पर।
LeakPlace-converter-housing = कन्वर्टर की हाउसिंग पर।
LeakPlace-not-seen = जगह नहीं दिखती।

## FluidLook

FluidLook-red = लाल, या नए जैसा।
FluidLook-brown = भूरा।
FluidLook-black = काला।
FluidLook-burnt = जले की गंध आती है।
FluidLook-milky = दूधिया।
FluidLook-metal = उसमें धातु है।

## Alarm

Alarm-air = ख़राब हवा: चक्कर, सिरदर्द।
Alarm-burn = कोई जल गया है।
Alarm-caught = कोई फँस गया है।
Alarm-fire = आग।

## Part

Part-filter = पुराना फ़िल्टर, तेल में भीगा।
Part-cooler = कूलर और उसकी लाइनें, ख़ाली की गईं।
Part-pan = ऑयल पैन, उतारा गया: निकालने के बाद उसमें बचा तेल।
Part-converter = कन्वर्टर, ख़ाली किया गया।

## Refusal

Refusal-no-job = कोई काम शुरू नहीं हुआ: पहले `tell start`।
Refusal-job-running = एक काम चल रहा है: पहले उसे `tell done` या `tell abort` से ख़त्म कीजिए।
Refusal-not-yet = यह काम में बाद में आता है; उससे पहले का एक स्टेप बाक़ी है।
Refusal-already-done = यह पहले ही दर्ज है; `tell undo` उसे वापस लेता है।
Refusal-not-go = हालत `go` नहीं है, इसलिए इस समय तेल का लेवल सही नहीं हो सकता।
Refusal-not-the-sign = यह गाड़ी अपना तेल का लेवल दूसरे संकेत से दिखाती है: जो स्क्रीन माँगे वह दर्ज कीजिए।
Refusal-port-closed = लेवल प्लग खुला दर्ज नहीं है: पहले `tell flowing`।
Refusal-port-open = लेवल प्लग खुला ही है: उसे लगाइए और पहले `tell closed`।
Refusal-shown-by-vehicle = गाड़ी यह ख़ुद दिखाती है; कोई व्यक्ति इसकी पुष्टि नहीं कर सकता।
Refusal-not-needed = गाड़ी का डेटा यह नहीं माँगता।
Refusal-not-level = गाड़ी काफ़ी समतल नहीं है: तेल का लेवल डेटा की छूट से ज़्यादा ग़लत होगा।
Refusal-impossible-amount = यह मात्रा नहीं हो सकती: गियरबॉक्स की क्षमता से ज़्यादा है, या कुछ भी नहीं।
Refusal-more-out-than-in = जितना कभी अंदर था उससे ज़्यादा निकला होगा; दोबारा नापिए।
Refusal-useless-surface = नंगी धातु आसपास की चीज़ें दिखाती है: उस पर मैट टेप लगाइए और उसे नापिए।
Refusal-impossible-value = वर्कशॉप की किसी गाड़ी का यह मान नहीं होता; दोबारा नापिए।
Refusal-amount-unknown = गाड़ी का डेटा नहीं बताता इसमें कितना आता है: नापिए और मात्रा दर्ज कीजिए।
Refusal-base-unknown = गाड़ी का डेटा व्हीलबेस और ट्रैक नहीं बताता: वे भी दर्ज कीजिए।
Refusal-corner-misread = चारों कोने एक तल पर नहीं हैं: एक ग़लत पढ़ा गया। दोबारा नापिए।
Refusal-wrong-position = गियर लीवर की अगली पोज़ीशन दूसरी है; स्क्रीन दिखाती है कौन-सी।
Refusal-too-early = गियर लीवर पिछली पोज़ीशन में काफ़ी देर नहीं रहा; स्क्रीन दिखाती है कितनी देर।
Refusal-no-such-job = लॉग में इस नंबर का काम नहीं है।
Refusal-not-a-hash = यह SHA-256 नहीं है: छोटे अक्षरों में 64 हेक्स अंक।
Refusal-nothing-to-undo = वापस लेने को कुछ नहीं है।
Refusal-too-long = पाठ बहुत लंबा है: ज़्यादा से ज़्यादा 200 अक्षर।
Refusal-hidden-character = पाठ में ऐसा अक्षर है जो दिखता नहीं, पर दिखने वाले को बदलता है।
Refusal-no-such-event = इस नंबर की घटना अब तक नहीं हुई; जो आगे आएगी वह भेजी जाएगी।
Refusal-too-many = इस काम में जितनी टिप्पणियाँ, फ़ोटो और गाड़ी के नाम हो सकते हैं, उतने हैं: बाक़ी कहीं और लिखिए।
Refusal-too-fast = इतने कम समय में कोई इतना नहीं लिखता: कुछ सेकंड रुकिए और फिर दर्ज कीजिए।
Refusal-not-understood = यह इंटरफ़ेस का सवाल नहीं है।
Refusal-journal-full = लॉग लिखा नहीं जा सकता, इसलिए कोई भरोसा नहीं। डिस्क पर जगह ख़ाली कीजिए।
Refusal-band-decided = कौन-सी रेंज मानी जाए, यह काम की शुरुआत में तय हुआ। ग़लत हो तो काम ख़त्म कीजिए, हवा का तापमान दर्ज कीजिए, और दोबारा शुरू कीजिए।
Refusal-needs-adapter = यह डेटा गाड़ी के बताए कूलेंट से चलता है; अडैप्टर के बिना उसे कोई नहीं पढ़ता। `spot` या `fluid` सिग्नल वाला डेटा चुनिए।
Refusal-no-such-sheet = प्रोग्राम को इस नाम का डेटा नहीं दिया गया; `serve --sheets FOLDER` उनका फ़ोल्डर बताता है।
Refusal-sheet-unconfirmed = इस डेटा की पुष्टि यहाँ किसी ने नहीं की: `standpipe sheet check FILE` बताता है क्या, `standpipe sheet confirm FILE` पुष्टि करता है।
Refusal-no-sheet = गाड़ी का डेटा नहीं दिया गया, इसलिए तेल का लेवल सेट नहीं हो सकता: `--sheet FILE` के साथ दोबारा शुरू कीजिए।
Refusal-not-searching = आइडेंटिफ़ायर की कोई खोज नहीं चल रही: `standpipe find` उसे शुरू करता है।
Refusal-no-such-candidate = यह आगे वाला आइडेंटिफ़ायर नहीं है; स्क्रीन दिखाती है कौन-सा है।
Refusal-not-agreed = अब तक कोई थर्मामीटर इससे नहीं मिलता: ऑयल पैन नापिए और पहले `spot` दर्ज कीजिए।
Refusal-not-settled = अब भी एक से ज़्यादा आइडेंटिफ़ायर हो सकते हैं: और गर्म होने दीजिए।
Refusal-ended = काम ख़त्म हो गया; `tell start` नया शुरू करता है।

## Shortfall

Shortfall-nothing-ran-out = `go` पर कुछ नहीं बहा, इसलिए तेल कम है। और भरिए, फिर सही तापमान पर दोबारा जाँचिए।
Shortfall-stays-dry = `go` पर कुछ नहीं बहा, जबकि जितना कम हो सकता है उससे ज़्यादा भरा गया। भरना रोकिए: रिसाव, दूसरा प्लग, गाड़ी का झुकाव जाँचिए।
Shortfall-gush-only = सिर्फ़ शुरू का तेज़ बहाव निकला: तेल कम है। जितना कम है और अतिरिक्त भरिए, फिर दोबारा जाँचिए।
Shortfall-ran-out-too-much = फ़ालतू से बहुत ज़्यादा निकला: ग़लत प्लग, या ढीला ओवरफ्लो पाइप? जितना कम है भरिए, फिर दोबारा जाँचिए।
Shortfall-amount-off = अंदर की मात्रा बताई गई मात्रा नहीं है, या पुराना तेल पूरा नहीं निकला। गियर ऑयल पूरा निकालिए और बताई मात्रा भरिए।
Shortfall-gauge-low = गेज चार्ट से कम दिखाता है: तेल कम है। रीडिंग के अनुसार जितना कम है भरिए, फिर दोबारा पढ़िए।
Shortfall-gauge-high = गेज चार्ट से ज़्यादा दिखाता है: तेल ज़्यादा है। थोड़ा खींचिए, नापकर, फिर दोबारा पढ़िए।
Shortfall-not-read-twice = रेंज के अंदर गेज की कोई दो रीडिंग 2 mm तक नहीं मिलतीं। गेज पोंछिए, पूरा अंदर डालिए, दोबारा पढ़िए।
Shortfall-not-looked-again = चलाने के बाद तेल का लेवल किसी ने दोबारा नहीं देखा। गाड़ी फिर समतल कीजिए और जाँचिए।
Shortfall-not-opened = `go` के दौरान लेवल प्लग नहीं खोला गया। अगले सही तापमान तक रुकिए और तब तेल का लेवल सेट कीजिए।
Shortfall-opened-before-go = लेवल प्लग `go` से पहले खुला था। तब बहा तेल अतिरिक्त में कम है; सही तापमान पर तेल का लेवल फिर सेट कीजिए।
Shortfall-no-trickle = लेवल प्लग बंद करते समय धार पतली नहीं हुई थी: तेल ज़्यादा है। सही तापमान पर फिर खोलिए और बहने दीजिए।
Shortfall-too-hot-before-trickle = पतली धार होने से पहले तेल बहुत गर्म हो गया। ठंडा होने दीजिए, बताई मात्रा भरिए, और तेल का लेवल फिर सेट कीजिए।
Shortfall-closed-late = लेवल प्लग तेल बहुत गर्म होने के बाद ही बंद हुआ: तेल का लेवल ग़लत है। ठंडा होने दीजिए, और तेल का लेवल फिर सेट कीजिए।
Shortfall-closed-outside-go = लेवल प्लग बंद करते समय हालत `go` नहीं थी। सही तापमान पर तेल का लेवल फिर सेट कीजिए।
Shortfall-precondition-open = एक बात की पुष्टि कभी नहीं हुई: देखिए क्या बाक़ी है। उसे ठीक कीजिए और तेल का लेवल फिर सेट कीजिए।
Shortfall-not-level = गाड़ी समतल नहीं खड़ी थी। उसे समतल कीजिए और तेल का लेवल फिर सेट कीजिए।
Shortfall-started-warm = काम शुरू होते समय गाड़ी गर्म थी। कूलेंट और हवा बराबर होने तक ठंडा होने दीजिए, फिर दोबारा शुरू कीजिए।
Shortfall-sensor-untrusted = जब ज़रूरत थी तब तापमान पर भरोसा नहीं था। ऑयल पैन पर थर्मामीटर से मिलाइए: अब तक पता नहीं कौन ग़लत है।
Shortfall-link-lost-while-open = लेवल प्लग खुला था, तब अडैप्टर का संपर्क टूटा। पक्के संपर्क के साथ तेल का लेवल फिर सेट कीजिए।
Shortfall-balance-open = जितना बहा वह भरे हुए से मेल नहीं खाता। पहले कम था, पूरा नहीं निकला, या रिसाव है? जल्दी दोबारा जाँचिए।
Shortfall-unmeasured = नापा नहीं गया: निकाला, भरा या बहा हुआ। मात्राओं से तेल का लेवल नहीं परखा जा सकता।
Shortfall-too-hot = गियर ऑयल रेंज से ऊपर था। इंजन बंद कीजिए, ठंडा होने दीजिए, और ठंडी गाड़ी से दोबारा शुरू कीजिए।
Shortfall-thin-evidence = लोगों ने दर्ज किया: रेंज में दो रीडिंग, आख़िरी बंद करने से ज़्यादा से ज़्यादा 2 min पहले, नापा हुआ झुकाव, और 15 s के बाद भी धार, ये सब नहीं थे।
Shortfall-leak-seen = रिसाव दर्ज हुआ, और तब से किसी ने नहीं देखा। पहले उसे ठीक कीजिए।
Shortfall-aborted = काम हाथ से ख़त्म किया गया।

## What hands do, where an amount or the kind of level stands in it

shim-stands = बाहर आइए। फिर { $shims }, दोबारा नापिए।
shims-both-rear = { $depth } दोनों पिछले जैक स्टैंड के नीचे
shims-both-front = { $depth } दोनों अगले जैक स्टैंड के नीचे
shims-both-left = { $depth } दोनों बाएँ जैक स्टैंड के नीचे
shims-both-right = { $depth } दोनों दाएँ जैक स्टैंड के नीचे
shim-front-left = { $depth } आगे बाएँ
shim-front-right = { $depth } आगे दाएँ
shim-rear-left = { $depth } पीछे बाएँ
shim-rear-right = { $depth } पीछे दाएँ
shims-each = { $parts } जैक स्टैंड के नीचे
fill-amount = नया गियर ऑयल { $amount } भरिए: जितना निकला, और अतिरिक्त।
fill-first-amount = इंजन बंद ही रहने दीजिए। पहले { $amount } भरिए।
fill-more-through-the-tube = तेल कम है: फिलर ट्यूब से { $amount } और भरिए।
fill-more-amount = लेवल प्लग हाथ से लगाइए। तेल कम है: { $amount } और भरिए।
draw-out-amount = तेल ज़्यादा है: फिलर ट्यूब से { $amount } खींचिए, नापकर।
add-that-amount = लेवल प्लग हाथ से लगाइए। फिर { $amount } भरिए।
fill-here-amount = तेल कम है: इसी छेद से { $amount } और भरिए।
let-out-amount = तेल ज़्यादा है: इंजन बंद ही रहने दीजिए। { $amount } बहने दीजिए, नापकर।
not-driven-amount = गाड़ी खड़ी रखिए, मत चलाइए। तेल { $amount } कम है।
open-level-hole = लेवल होल अभी खोलिए, बग़ल से। चश्मा पहने रहिए।
watch-until-it-drips = बग़ल से देखिए। सिर्फ़ टपके तब बताइए।
be-ready-at-the-hole = गाड़ी के नीचे जाइए। लेवल होल बंद रखिए।
close-hole-not-right = लेवल होल का प्लग लगाइए। तापमान ग़लत है।
close-hole-too-hot = लेवल होल का प्लग लगाइए। बहुत गर्म।
pipe-out-plug-in = ओवरफ्लो पाइप निकालिए, प्लग तुरंत हाथ से लगाइए।
drain-and-measure = गियर ऑयल निकालिए। नापिए कितना और कितना गर्म।
fill-that-of-the-data = गाड़ी के डेटा की मात्रा भरिए।
close-up-cap-on = ड्रेन प्लग हाथ से लगाइए, फिलर ट्यूब पर ढक्कन। भरने की नली और ट्रे हटाइए।
cap-on-check-adapter = ढक्कन लगा रहने दीजिए। अडैप्टर का कनेक्टर जाँचिए।
gauge-and-cloth-ready = गेज और कपड़ा तैयार रखिए। ढक्कन लगा रहने दीजिए।
fill-more-tube = तेल कम है: फिलर ट्यूब से और भरिए।
cap-locked-tighten = फिलर ट्यूब पर ढक्कन, लॉक। इंजन बंद, फिर ड्रेन प्लग कसिए।
close-up-plugs = प्लग हाथ से लगाइए। भरने की नली और ट्रे हटाइए।

## The result

level-low-by = तेल का लेवल सेट है, { $amount } कम।
level-high-by = तेल का लेवल सेट है, { $amount } ज़्यादा।
known-to-within = ±{ $amount } तक पता।
known-to = { $amount } तक पता।
was-low-by-more = तेल { $amount } से भी ज़्यादा कम था।
was-right-within = लेवल सही था, ±{ $amount } तक पता।
was-low-by = तेल लगभग { $amount } कम था, ±{ $within }।
was-high-by = तेल लगभग { $amount } ज़्यादा था, ±{ $within }।
less-than-before = अंदर पहले से { $amount } कम।
more-than-before = अंदर पहले से { $amount } ज़्यादा।
as-much-as-before = अंदर पहले जितना ही।
mend-leak-first = पहले रिसाव ठीक कीजिए। फिर तेल का लेवल दोबारा सेट कीजिए।
find-why-it-stays-low = चलाने से पहले पता कीजिए तेल क्यों कम रहता है। फिर तेल का लेवल दोबारा सेट कीजिए।
recheck-on-the-day = रिपोर्ट में लिखे दिन तेल का लेवल दोबारा जाँचिए, ठंडी गाड़ी पर।
fill-then-open-again = { $amount } भरिए, फिर सही तापमान पर लेवल प्लग खोलिए। पतली धार होने दीजिए।
open-again-let-run = सही तापमान पर लेवल प्लग फिर खोलिए, गाड़ी समतल। पतली धार होने दीजिए।
put-right-and-fill = नीचे लिखी बात ठीक कीजिए, { $amount } भरिए। फिर तेल का लेवल दोबारा सेट कीजिए।
put-right-and-set-again = नीचे लिखी बात ठीक कीजिए। फिर तेल का लेवल दोबारा सेट कीजिए।

## What comes next: at most eight words

next-stands-level-hose = जैक स्टैंड, गाड़ी समतल, एग्जॉस्ट होज़।
next-drain-fill-port-first = गियर ऑयल निकालिए, पहले फिलर प्लग।
next-measure-how-it-stands = गाड़ी का झुकाव नापिए।
next-read-the-container = डिब्बा पढ़िए।
next-drain = गियर ऑयल निकालिए।
next-pipe-back-in = ओवरफ्लो पाइप वापस लगाइए, हाथ से।
next-fill-and-circulate-again = फिर भरिए, तेल फिर घुमाइए।
next-fill = भरिए: जितना निकला, और अतिरिक्त।
next-close-up-come-out = दोनों प्लग लगाइए, ट्रे हटाइए, बाहर आइए।
next-come-out-engine-starts = बाहर आइए। फिर इंजन चालू होगा।
next-brake-and-selector = ब्रेक दबाए रखिए, गियर लीवर पोज़ीशनों में।
next-stay-out-until-near = सही तापमान पास आने तक बाहर रहिए।
next-go-below-when-near = सही तापमान पास आए तब नीचे जाइए।
next-open-at-the-word = “अभी” आने तक लेवल प्लग बंद रखिए।
next-read-once-more = गेज पोंछिए, एक बार और पढ़िए।
next-thin-thread-close = पतली धार: प्लग हाथ से लगाइए।
next-engine-off-jug-plugs = इंजन बंद, जग पढ़िए, प्लग कसिए।
next-open-only-when-right = सही तापमान आने तक प्लग बंद रखिए।
next-let-it-cool = ठंडा होने दीजिए; सही तापमान फिर आएगा।
next-right-plug-pipe-in = इंजन बंद, जग पढ़िए। सही प्लग, ओवरफ्लो पाइप लगा?
next-look-again = सही तापमान पर दोबारा जाँचिए।
next-wipe-dry-look = पोंछकर सुखाइए, बाहर आइए, रिसाव खोजिए।
next-engine-on-look-for-drops = इंजन फिर चालू, बूँदें खोजिए।
next-lower-and-drive = बाहर आइए। फिर गाड़ी उतरेगी, चलेगी।
next-drive-a-short-way = गाड़ी ज़मीन पर उतारिए, थोड़ी दूर चलाइए।
next-finish = रिपोर्ट पूरी कीजिए।
next-check-again = रिपोर्ट वाले दिन दोबारा जाँचिए, ठंडी गाड़ी।

## Nothing is read: what hands do, and who is silent

close-port-if-open = लेवल प्लग खुला हो तो लगाइए।
leave-the-engine = इंजन जैसा है वैसा रहने दीजिए।
check-adapter-plug = अडैप्टर का कनेक्टर जाँचिए।
check-which-device = जाँचिए कौन-सा डिवाइस बताया गया है।
use-another-adapter = दूसरा अडैप्टर लीजिए।
check-ignition-and-plug = इग्निशन और अडैप्टर का कनेक्टर जाँचिए।
wait-until-it-answers = जवाब आने तक रुकिए।
check-the-sheet = गाड़ी का डेटा जाँचिए।
none-yet = { $signal }: आना बाक़ी
vehicle-silent = गाड़ी चुप
adapter-silent = अडैप्टर चुप
adapter-gone = अडैप्टर ग़ायब
no-adapter = अडैप्टर नहीं
adapter-in-trouble = अडैप्टर में गड़बड़
signal-refused = { $signal }: मना
signal-missing = { $signal }: कुछ नहीं
name-reading = रीडिंग
name-fluid = गियर ऑयल
name-coolant = कूलेंट
name-spot = थर्मामीटर
name-display = डिस्प्ले
name-lamp = लैंप

## The selector's rounds

rounds-to-come = { $rounds ->
    [one] { $rounds } राउंड, हर पोज़ीशन में { $dwell } s
   *[other] { $rounds } राउंड, हर पोज़ीशन में { $dwell } s
}
move-on-round = अगली पोज़ीशन, राउंड { $round } / { $rounds }
seconds-more-round = { $seconds } s और, राउंड { $round } / { $rounds }
brake-begin-in = ब्रेक दबाए रखिए। लीवर { $position } में शुरू कीजिए।
brake-stay-in = ब्रेक दबाए रखिए। लीवर { $position } में ही रखिए।
brake-back-to = ब्रेक दबाए रखिए। लीवर { $position } में वापस लाइए।
brake-move-to = ब्रेक दबाए रखिए। लीवर { $position } में ले जाइए।
offer-begin-in = लीवर { $position } में: शुरू
offer-back-in = वापस { $position } में
offer-now-in = लीवर { $position } में

## Why, with numbers

head-fluid = गियर ऑयल
head-coolant = कूलेंट
head-sump = ऑयल पैन
head-display = डिस्प्ले
head-lamp = लैंप की रेंज
signal-below-band = { $signal }: { $celsius } ± { $u }, रेंज { $band } से नीचे।
signal-above-band = { $signal }: { $celsius } ± { $u }, रेंज { $band } से ऊपर।
signal-inside-band = { $signal }: { $celsius } ± { $u }, रेंज { $band } के अंदर।
fluid-about = गियर ऑयल: लगभग { $celsius } ± { $u }।
better-reading = बेहतर: { $reading } (± { $u })।
runs-out-in-time = बहने को लगभग { $needs } min चाहिए, { $window } min हैं।
runs-out-tight = बहने को लगभग { $needs } min चाहिए, { $window } min हैं। समय तंग: सब पास रखिए, “अभी” आते ही खोलिए।
runs-out-too-long = बहने को लगभग { $needs } min चाहिए, { $window } min हैं। प्लग समय पर लगाइए, बाक़ी दूसरे राउंड में।
warming-a-minute = हर मिनट { $rate } गर्म होता है।
cooling-a-minute = हर मिनट { $rate } ठंडा होता है।

## The search for the identifier

identifier-found = आइडेंटिफ़ायर: मिल गया।
identifier-not-found = आइडेंटिफ़ायर: नहीं मिला।
identifiers-asked = आइडेंटिफ़ायर: लगभग { $planned } में से { $asked } पूछे
identifier-stopped = आइडेंटिफ़ायर: खोज बंद हुई।
identifier-is-left = आइडेंटिफ़ायर: { $place } बचा है।
identifiers-may-be-it = आइडेंटिफ़ायर: { $left } हो सकते हैं।
it-shows = वह { $celsius } दिखाता है।
seconds-left = लगभग { $count } s बाक़ी
minutes-left = लगभग { $count } min बाक़ी

## Nothing is known

close-port-nothing-known = लेवल प्लग लगाइए। कुछ पता नहीं।
keep-port-closed-nothing-known = लेवल प्लग बंद रखिए। कुछ पता नहीं।
leave-engine-nothing-known = इंजन जैसा है वैसा रहने दीजिए। कुछ पता नहीं।
keep-port-closed = लेवल प्लग बंद रखिए।
leave-gauge-nothing-known = गेज को रहने दीजिए। कुछ पता नहीं।
without-the-daemon = प्रोग्राम के बिना
daemon-does-not-answer = प्रोग्राम जवाब नहीं देता। दोबारा चालू होने पर वह वहीं से आगे चलता है।
no-daemon-for = प्रोग्राम नहीं, { $seconds } s
a-person-tells-it = उसे व्यक्ति दर्ज करता है।
last-reading-too-old = आख़िरी रीडिंग बहुत पुरानी है। वह अपने आप लौटती है।

## Names and counts on a screen

job-number = काम { $job }
data-unconfirmed = गाड़ी के इस डेटा की पुष्टि किसी ने नहीं की। इससे कोई काम शुरू नहीं होता।
data-guessed = गाड़ी का कुछ डेटा अंदाज़े से है: ± बड़ा है। प्लान बताता है क्या सबसे ज़्यादा मदद करेगा।
look-again-in = लगभग { $minutes } min में दोबारा जाँचिए।
still-open = बाक़ी काम: { $what }।
until-window-opens = सही तापमान तक
until-window-closes = सही तापमान में बाक़ी
until-read-again = दोबारा पढ़ने तक
until-back-in-band = ठंडा होने में, इंजन बंद
without-a-reading = रीडिंग के बिना
torque-pipe = ओवरफ्लो पाइप { $torque }
torque-check-plug = लेवल प्लग { $torque }
torque-fill-plug = फिलर प्लग { $torque }
told-by-people = लोगों ने दर्ज किया: { $what }
signal-seconds-ago = { $signal }, { $count } s पहले
signal-minutes-ago = { $signal }, { $count } min पहले
step-of = स्टेप { $step } / { $steps }: { $name }
step-prepare = तैयारी
step-drain = ऑयल निकालना
step-fill = भरना
step-circulate = तेल घुमाना
step-window = सही तापमान
step-run-out = बहने देना
step-trickle = पतली धार
step-close = प्लग लगाना
step-torque = टॉर्क से कसना
step-test-drive = चलाकर देखना
step-recheck = दोबारा जाँच
amount-drained = निकाला { $amount }
amount-filled = भरा { $amount }
amount-ran-out = बहा { $amount }
amount-should-run-out = बहना चाहिए { $amount }
amounts-at = { $amounts } ({ $celsius } पर)

## The one huge word

word-wait = रुकिए
word-go = अभी
word-too-hot = बहुत गर्म
word-no-reading = रीडिंग नहीं

## What can be told: buttons

offer-start-the-job = काम शुरू कीजिए
offer-another-kind-of-job = दूसरी तरह का काम
offer-choose-another-sheet = गाड़ी का दूसरा डेटा चुनिए
offer-hot-day-the-air-outside-in-the-shade = गर्म दिन? बाहर छाया में हवा
offer-no-drive-is-felt-in-gear = गियर में खिंचाव महसूस नहीं
offer-it-differs-not-this-fluid = अलग है: यह तेल नहीं
offer-drained-how-much = निकाला: कितना
offer-filled-how-much = भरा: कितना
offer-it-was-in-and-more-came-out-how-much = पाइप लगा था, और निकला: कितना
offer-ran-out-how-much = बहा: कितना
offer-it-still-flows = बह ही रहा है
offer-filled-more-how-much = और भरा: कितना
offer-fluid-flows-from-the-check-port = लेवल प्लग से तेल बह रहा है
offer-nothing-runs-out = कुछ नहीं बहता
offer-it-only-drips = सिर्फ़ टपकता है
offer-it-is-a-thin-thread-now = पतली धार है
offer-it-stands-at-the-lower-edge = तेल निचले किनारे पर है
offer-it-stands-below-the-edge-how-far = तेल किनारे से नीचे है: कितना
offer-it-runs-out-over-the-edge = तेल किनारे के ऊपर से बहता है
offer-fluid-runs-out-there = वहाँ से तेल बहता है
offer-drawn-out-how-much = खींचा: कितना
offer-ran-out-from-the-jug-how-much = बहा, जग से पढ़ा: कितना
offer-plugs-tightened-to-the-torques = प्लग टॉर्क से कसे
offer-driven-no-leak-seen = चलाकर देखा, रिसाव नहीं दिखा
offer-write-the-record = रिपोर्ट पूरी कीजिए
offer-check-port-closed-hand-tight = लेवल प्लग हाथ से लगाया
offer-fluid-flows-now-at-go = तेल बह रहा है, “अभी” पर
offer-it-leaks-damp-drops-runs = रिसाव है: नम, बूँदें, बहता है
offer-how-it-stands-measured = गाड़ी का झुकाव, नापा हुआ
offer-the-gauge-shows = गेज दिखाता है
offer-the-number-on-the-display = डिस्प्ले का नंबर
offer-a-thermometer-s-reading = थर्मामीटर की रीडिंग
offer-it-stands-on-four-stands = चार जैक स्टैंड पर है
offer-the-lift-is-known-to-be-level = लिफ़्ट समतल है, यह पता है
offer-the-exhaust-goes-outside = एग्जॉस्ट बाहर जाता है
offer-the-brake-is-held = ब्रेक दबा है
offer-the-cooler-pin-is-in = कूलर पिन लगा है
offer-rounds-done-selector-back-in-p-parking-brake = राउंड पूरे, लीवर P में, हैंड ब्रेक लगा
offer-p-parking-brake-on-chocks = P, हैंड ब्रेक लगा, गुटके लगे
offer-the-fill-port-is-open = फिलर प्लग खुला है
offer-container-read-the-same-words = डिब्बा पढ़ा: वही शब्द
offer-the-pipe-is-in = ओवरफ्लो पाइप लगा है
offer-both-plugs-in-tray-and-hose-away = दोनों प्लग लगे, ट्रे और नली हटी
offer-i-am-out-and-clear = मैं बाहर हूँ
offer-the-cooler-pin-is-out = कूलर पिन निकला है
offer-no-leak-seen = रिसाव नहीं दिखा
offer-covers-and-wheel-are-back-on = कवर और पहिया वापस लगे
offer-the-service-mode-is-on = सर्विस मोड चालू है
offer-ready-is-off-key-below = Ready बंद, चाबी नीचे वाले के पास
offer-it-is-dry = सूखा है
offer-everybody-is-safe = सब सुरक्षित हैं
offer-it-started-cold = ठंडी चालू हुई
offer-selector-in-the-position-of-the-look = लीवर जाँच की पोज़ीशन में
offer-it-is-so = हाँ, ऐसा ही है
offer-recheck-of-number = पुराने काम की दोबारा जाँच: उसका नंबर
offer-the-check-port-is-open-fluid-flows = लेवल प्लग खुला है, तेल बहता है
offer-the-check-port-is-open-nothing-comes = लेवल प्लग खुला है, कुछ नहीं आ रहा
offer-old-fluid-went-with-a-part = पुर्ज़े के साथ पुराना तेल गया
offer-kept-back-as-a-sample-how-much = नमूने के लिए रखा: कितना
offer-four-heights-front-left-right-rear-left-righ = चार ऊँचाइयाँ: आगे बाएँ, दाएँ, पीछे बाएँ, दाएँ
offer-a-remark-for-the-record = रिपोर्ट के लिए टिप्पणी
offer-which-vehicle-plate-or-order = कौन-सी गाड़ी: नंबर प्लेट या ऑर्डर
offer-write-the-record-now = रिपोर्ट तुरंत पूरी कीजिए
offer-end-the-job-without-a-level = तेल का लेवल सेट किए बिना काम ख़त्म
offer-somebody-is-in-danger = कोई ख़तरे में है
offer-spilled-at-the-drain-by-eye-how-much = निकालते समय गिरा, अंदाज़े से: कितना
offer-spilled-while-filling-by-eye-how-much = भरते समय गिरा, अंदाज़े से: कितना
offer-spilled-at-the-check-port-by-eye-how-much = लेवल प्लग पर गिरा, अंदाज़े से: कितना
offer-it-is-the-fluids = यह गियर ऑयल का है: { $place }
offer-lamp-too-cold = लैंप बहुत ठंडा: { $shows }
offer-lamp-right = लैंप सही: { $shows }
offer-lamp-too-hot = लैंप बहुत गर्म: { $shows }

## What is asked with a choice

choice-check = सिर्फ़ तेल का लेवल जाँचना
choice-alone = तेल बदलना, एक व्यक्ति अकेला
choice-check-alone = सिर्फ़ जाँचना, एक व्यक्ति अकेला

## On every screen

say-next = आगे: { $what }
say-balance = मात्राएँ: { $what }
say-undo = वापस लीजिए: { $what }
hold-to-tell = पुष्टि के लिए दबाए रखिए
hold-longer = थोड़ी देर और दबाए रखिए: { $what }।
told = दर्ज हुआ।
refused = मना हुआ: { $why }
not-told-no-contact = भेजना विफल: संपर्क नहीं।
let-be = रहने दीजिए

## The terminal

term-open = बाक़ी काम: { $what }
term-twice = (दो बार)
term-more = m और
term-more-page = m और ({ $page } / { $pages })
term-other-seat = i दूसरी जगह
term-undo = u वापस लीजिए { $what }
term-leave = q छोड़िए
term-press-again = { $what }: { $key } फिर दबाइए।
term-nothing-to-take-back = पिछले मिनट का कुछ वापस नहीं लिया जा सकता।
term-like-amount = जैसे 2.4L 22C
term-like-depth = जैसे 3mm
term-like-level = पिच और रोल, जैसे 0.1deg -0.2deg
term-like-spot = जैसे 38.5C tape; { $surfaces }
term-like-temperature = जैसे 41C
term-like-number = उसका नंबर: { $names }
term-then-enter = फिर Enter

## The page

page-connecting = जुड़ रहा है
page-nothing-known-yet = अब तक कुछ पता नहीं।
page-pipe-nothing-known = ओवरफ्लो पाइप: कुछ पता नहीं
page-pipe-shows = ओवरफ्लो पाइप: { $celsius }, रेंज { $low } से { $high }
page-positions = गियर लीवर की पोज़ीशन
page-still-open = बाक़ी काम
page-cautions = सावधानियाँ
page-more = और
page-elsewhere = दूसरे पन्ने
page-seat-inside = अंदर की जगह
page-seat-under = गाड़ी के नीचे की जगह
page-jobs = काम और रिपोर्ट
page-plan = प्लान
page-data = गाड़ी का डेटा
page-sound = आवाज़
page-sound-on = आवाज़ चालू है
page-sound-off = आवाज़ बंद है
page-volume = वॉल्यूम
page-vibration-on = वाइब्रेशन चालू है
page-vibration-off = वाइब्रेशन बंद है
page-hear-all = सब सुनिए
page-tell = दर्ज कीजिए
page-close = पन्ना बंद कीजिए
page-pair-title = यह ब्राउज़र जोड़िए
page-pair-where = कोड प्रोग्राम के टर्मिनल पर लिखा है; standpipe page pair नया दिखाता है।
page-code = कोड
page-pair-clear = यह पन्ना एन्क्रिप्ट नहीं है: जो इस नेटवर्क पर सुनता है, वह सब पढ़ सकता है और कोड ले सकता है।
page-pair = जोड़िए
page-no-contact = संपर्क नहीं
page-no-contact-for = संपर्क नहीं, { $seconds }
page-without-contact = बिना संपर्क
page-no-daemon = प्रोग्राम से संपर्क नहीं। वह अपने आप लौटता है।
page-leave-engine = इंजन जैसा है वैसा रहने दीजिए। कुछ पता नहीं।
page-close-port-if-open = लेवल प्लग खुला हो तो लगाइए। कुछ पता नहीं।
page-how-much = कितना
page-how-warm = कितना गर्म था
page-depth = पढ़ा या नापा हुआ
page-pitch = पिच, नाक ऊपर हो तो धन
page-roll = रोल, बायाँ ऊपर हो तो धन
page-temperature = तापमान
page-thermometer-shows = थर्मामीटर दिखाता है
page-held-to = किस पर लगाया या साधा
page-in-your-words = अपने शब्दों में
page-which = कौन-सा
page-degrees = डिग्री
page-no-job = अब तक कोई काम नहीं।
page-job = काम { $job }, { $day }

## What can be taken back

undo-level = नापा हुआ झुकाव
undo-drained = निकाले तेल की मात्रा
undo-filled = भरे तेल की मात्रा
undo-ran-out = बहे तेल की मात्रा
undo-gauge = गेज की रीडिंग
undo-answer = पिछला जवाब
undo-selector = गियर लीवर { $position } में
undo-trickle = पतली धार
undo-drips = बूँदें
undo-torqued = कसे हुए प्लग
undo-test-driven = टेस्ट ड्राइव

## How a bay is

status-job = काम { $job } चल रहा है।
status-adapter = अडैप्टर: { $what }
status-by-people = अडैप्टर: कोई नहीं, सब कुछ लोग बताते हैं
status-port-shut = अडैप्टर: { $what }, उसका पोर्ट बंद है
status-vehicle = गाड़ी: { $what } पर जवाब देती है
status-vehicle-silent = गाड़ी: कोई जवाब नहीं
status-reading = आख़िरी रीडिंग: { $celsius }, { $age } पहले
status-no-reading = आख़िरी रीडिंग: कोई नहीं
status-disk = जर्नल: डिस्क पर { $free } ख़ाली
status-disk-silent = जर्नल: उसकी डिस्क जवाब नहीं देती
status-clock = घड़ी: { $time }
status-clock-behind = घड़ी: { $time }, { $behind } पीछे
status-clients = क्लाइंट: { $most } में से { $here }, इसे मिलाकर
status-running = प्रोग्राम: संस्करण { $version }, { $time } से चल रहा है

## Health

Health-healthy = काम के लिए जो चाहिए, सब मौजूद है।
Health-waiting = प्रोग्राम चल रहा है और रुका है: अभी कुछ पढ़ा नहीं जा सकता।
Health-needs-a-hand = प्रोग्राम चल रहा है, पर किसी को कुछ करना होगा।

## Ailment

Ailment-no-adapter = अडैप्टर मौजूद नहीं या जवाब नहीं देता।
    .remedy = उसका कनेक्टर और तार जाँचिए; वह अपने आप लौटता है।
Ailment-no-vehicle = गाड़ी जवाब नहीं देती।
    .remedy = जाँचिए कि अडैप्टर कनेक्टर में मज़बूती से लगा हो।
Ailment-no-reading = जाँच का तापमान पढ़ा नहीं जा रहा।
    .remedy = कुछ सेकंड रुकिए; फिर शीट में पहचान जाँचिए।
Ailment-disk-full = जर्नल की डिस्क लगभग भरी है।
    .remedy = अगले काम से पहले जगह ख़ाली कीजिए।
Ailment-disk-slow = जर्नल की डिस्क धीमी है: घटनाएँ उसका इंतज़ार करती हैं।
    .remedy = जर्नल के लिए दूसरा कार्ड या डिस्क लीजिए।
Ailment-clock-behind = घड़ी उससे पीछे है जो जर्नल में पहले से है।
    .remedy = घड़ी मिलाइए: रिपोर्टों पर उसकी तारीख़ होती है।

## ClosureCause

ClosureCause-opened-early = सही तापमान से पहले खुला: कन्वर्टर जितना लेता वह भी बह गया। भरिए और दोबारा सेट कीजिए।
ClosureCause-engine-stopped = प्लग खुला था और इंजन बंद हुआ: कन्वर्टर से लौटा तेल भी बह गया। दोबारा सेट कीजिए।
ClosureCause-wrong-temperature = कोई मात्रा तापमान के बिना या ग़लत तापमान से दर्ज हुई: गर्म तेल ज़्यादा जगह लेता है। दोनों साथ नापिए।
ClosureCause-was-low-before = काम से पहले तेल कम था: अतिरिक्त का हिस्सा उसमें गया। पूछिए कब से, और पुराना रिसाव देखिए।
ClosureCause-not-all-caught = जितना बहा सब पकड़ा नहीं गया। जितना गिरा, अंदाज़ से दर्ज कीजिए।
ClosureCause-leak = तेल कहीं और से निकल रहा है। चलने से पहले प्लग, पैन गैस्केट और कूलर लाइनें देखिए।
ClosureCause-was-high-before = काम से पहले तेल ज़्यादा था।
ClosureCause-tube-not-seated = ओवरफ्लो पाइप आख़िर तक नहीं कसा: बगल से तेल बहा और कम है। टॉर्क से कसिए, दोबारा सेट कीजिए।
ClosureCause-drained-not-fully = डेटा से कम तेल निकला: पुराना तेल ज़्यादा बचा है। लेवल इस पर निर्भर नहीं।

## Cause

Cause-temperature = बंद करते समय तेल रेंज के बीच में नहीं था।
Cause-tilt = गाड़ी पूरी तरह समतल नहीं थी।
Cause-warming = टपकते समय तेल गर्म होता रहा: किनारे पर ज़्यादा रह गया।
Cause-amount = भरी मात्रा बताई मात्रा से अलग है, नाप जितना बताए।
Cause-guess = गाड़ी के डेटा में जो अंदाज़ा है।
Cause-residual = किनारे पर बची परत सामान्य पतली धार वाली से अलग है।

## Fault

Fault-code-stored = गाड़ी में फ़ॉल्ट कोड दर्ज है।
Fault-not-an-adapter = इस पोर्ट पर जो जवाब देता है वह ऐसा अडैप्टर नहीं।
Fault-adapter-fault = अडैप्टर अपनी ही ख़राबी बताता है।
Fault-bus-fault = गाड़ी का बस आदान-प्रदान में बाधा डालता है।
Fault-no-answer = एक कंट्रोल यूनिट अनुरोध का जवाब नहीं देता।
Fault-declined = एक कंट्रोल यूनिट अनुरोध ठुकराता है।
Fault-undecodable = एक जवाब समझा नहीं जा सका, रीडिंग नहीं बनी।
Fault-units-disagree = कंट्रोल यूनिट एक ही चीज़ के अलग मान बताते हैं।
Fault-avoided = यह भेजते ही हर बार कनेक्शन टूटा; अब यह आख़िर में और कभी-कभी भेजा जाता है।
Fault-wrong-sender = जिससे पूछा नहीं गया उस कंट्रोल यूनिट ने जवाब दिया।
Fault-journal-slow = डिस्क धीमी है।
Fault-journal-failed = जर्नल लिखा नहीं जा सकता।
Fault-journal-repaired = जर्नल ख़राब था; जो पढ़ा जा सका वह चलता है, ख़राब फ़ाइल रखी गई।
Fault-journal-damaged = जर्नल में कुछ वैसा नहीं जैसा लिखा गया था।

## Way

Way-drained = निकाले तेल में से।
Way-filled = भरे जाने वाले तेल में से।
Way-ran-out = लेवल प्लग से बहे तेल में से।

## LampState

LampState-too-cold = रेंज से नीचे।
LampState-right = रेंज में।
LampState-too-hot = रेंज से ऊपर।

## Step

Step-prepare = तैयारी: स्टैंड, समतल, हवा, औज़ार, बर्तन; निकालने से पहले फिलर प्लग खुलता है।
Step-drain = निकालिए, और नापिए कितना निकला और कितना गर्म था।
Step-fill = जितना निकला उतना भरिए, और डेटा का अतिरिक्त।
Step-circulate = इंजन चालू; ब्रेक दबाकर सिलेक्टर सब पोज़िशन में ले जाइए।
Step-window = सही तापमान का इंतज़ार कीजिए।
Step-run-out = लेवल प्लग खोलिए और ज़्यादा तेल बहने दीजिए।
Step-trickle = धार पतली हो गई है।
Step-close = लेवल प्लग बंद कीजिए।
Step-torque = प्लग गाड़ी के डेटा वाले टॉर्क से कसिए।
Step-test-drive = थोड़ी दूर चलाइए, रिसाव देखिए।
Step-recheck = कुछ दिन बाद लेवल दोबारा जाँचिए, ठंडे में।

## Hint

Hint-four-stands = चार स्टैंड, या इसके लिए बनी लिफ़्ट।
Hint-inclinometer = झुकाव मापक, फ़ोन या पैमाना।
Hint-exhaust-hose = एग्ज़ॉस्ट होज़।
Hint-measuring-jug = नापने वाला जग।
Hint-thermometer = थर्मामीटर।
Hint-tray = ट्रे।
Hint-gloves-and-glasses = दस्ताने, चश्मा।
Hint-new-fluid = नया तेल।
Hint-pump = पंप, या होज़ वाली कीप।
Hint-empty-jug = ख़ाली नापने वाला जग।
Hint-lamp = लैंप।
Hint-torque-wrench = टॉर्क रेंच।
Hint-new-seals = नई सीलें, जैसा निर्माता कहे।
Hint-its-own-gauge = गाड़ी का अपना गेज।
Hint-cloth = बिना रोएँ का कपड़ा।
Hint-fill-stated = बताई मात्रा नापकर भरिए।
Hint-fill-there = जिस छेद को देखते हैं उसी से भरिए: जितना निकला।
Hint-only-drips = सिर्फ़ टपकता है।
Hint-close-by-hand = हाथ से बंद कीजिए।
Hint-no-port-here = यहाँ कोई प्लग नहीं खुलता: गेज ट्यूब में पढ़ते हैं, mm में।
Hint-read-twice = पोंछिए, आख़िर तक डालिए, निकालिए, पढ़िए; फिर एक बार और।
Hint-two-must-agree = 2 mm तक मिलती दो रीडिंग गिनी जाती हैं। बिना पोंछे या अधूरा डाला गेज कुछ नहीं बताता।
Hint-clean-the-cap = पहले ढक्कन के आसपास साफ़ कीजिए; दो जाँच के बीच ढक्कन वापस।
Hint-air-springs = लिफ़्टिंग मोड चालू, किसी के नीचे जाने से पहले बॉडी स्टैंड या लिफ़्ट पर टिकी हो।
Hint-orange = नारंगी यानी हाई वोल्टेज: सिर्फ़ प्रशिक्षित व्यक्ति के लिए, कभी काटना या हिलाना नहीं।
Hint-on-a-lift = लिफ़्ट पर: P, पार्किंग ब्रेक, बाहर निकलिए। उठाइए, लॉक पर उतारिए; चलते समय नीचे कोई नहीं।
Hint-sit-down-first = दूसरे के नीचे जाने से पहले बैठिए; नीचे ख़ाली होने पर ही उतरिए।
Hint-wash-hands = दस्ताने पहनिए, साबुन से धोइए, भीगे कपड़े बदलिए।
Hint-photo-if-black = काला, जला, धातु वाला: फ़ोटो लीजिए, आगे से पहले ग्राहक तय करे।
Hint-never-what-ran-out = सिर्फ़ नया तेल, बहा हुआ कभी नहीं।
Hint-out-of-a-pit = समय आने तक गड्ढे से बाहर, होज़ लगी हो।
Hint-wipe-around = पहले प्लग के आसपास पोंछिए, होज़ और पंप साफ़ कीजिए।
Hint-new-washer = बहते समय नया वॉशर प्लग पर लगाइए।
Hint-fan-may-start = इंजन बंद होने पर भी पंखा ख़ुद चल सकता है: हाथ दूर।
Hint-wipe-while-hot = गर्म में सूखे कपड़े से पोंछिए; स्प्रे सिर्फ़ ठंडे में, इंजन बंद।
Hint-all-but-the-stands = स्टैंड छोड़कर सब, इंजन चालू होने तक।
Hint-brake-any-time = ब्रेक कभी भी; पोज़िशन सिर्फ़ चलते इंजन पर।
Hint-jug-may-wait = जग बाद में पढ़ सकते हैं।

## The report: what the customer reads

date = { $day } { $month ->
    [1] जनवरी
    [2] फ़रवरी
    [3] मार्च
    [4] अप्रैल
    [5] मई
    [6] जून
    [7] जुलाई
    [8] अगस्त
    [9] सितंबर
    [10] अक्टूबर
    [11] नवंबर
   *[12] दिसंबर
} { $year }
report-title = गियर ऑयल की रिपोर्ट
report-of-job = काम { $job }, { $day }
times-from-to = { $from } से { $to }
times-since = { $from } से
label-and-value = { $label }: { $value }
job-not-ended = काम पूरा नहीं हुआ।
what-was-done = क्या किया गया?
is-it-right = क्या तेल का लेवल सही है?
may-i-drive = क्या गाड़ी चला सकते हैं?
when-to-come-again = दोबारा कब आना है?
what-it-costs = कितना ख़र्च है?
what-you-should-know = और क्या जानना चाहिए
answer-yes = हाँ।
answer-probably = शायद।
answer-no = नहीं।
done-changed = गियर ऑयल बदला गया: { $drained } निकला, { $filled } नया तेल भरा गया।
done-only-drained = { $drained } तेल निकला। नया तेल दर्ज नहीं किया गया।
done-only-filled = { $filled } नया तेल भरा गया।
done-nothing-entered = तेल की कोई मात्रा दर्ज नहीं की गई।
done-checked = गियर ऑयल का लेवल जाँचा गया।
done-checked-again = काम { $job } के बाद तेल का लेवल दोबारा जाँचा गया।
done-fresh-share = अब अंदर का { $percent } % तेल नया है।
drive-not-before-the-end = काम पूरा होने से पहले नहीं।
drive-not-said = यह रिपोर्ट नहीं बताती। चलाने से पहले वर्कशॉप से पूछिए।
again-not-right = अभी पूरा नहीं हुआ। वर्कशॉप को तेल का लेवल सेट करना है।
days-and = { $days } और { $last }
again-no-day = कोई दिन नहीं बताया गया।
again-on = { $days }। पिछली रात गाड़ी खड़ी रखिए: लेवल ठंडे में जाँचा जाता है।
customer-other-cause = लेवल सही था, यानी ख़राबी की वजह दूसरी है। सिर्फ़ नया तेल इसे ठीक नहीं करेगा।
customer-driven-low = कम तेल के साथ चलाई गई। इससे घिसाव हो सकता है।
customer-ask-history = तेल कम था, पर रिसाव नहीं दिखता। पिछली बार किसने काम किया था?
customer-filled-wrong = इस काम से पहले तेल ज़्यादा था।
customer-worn = पुराना तेल काला, जला या धातु वाला था: अंदर घिसाव है। वर्कशॉप की सलाह पूछिए।
customer-water-in = पुराना तेल दूधिया था: पानी या कूलेंट अंदर आया। वजह ढूँढना ज़रूरी है।
customer-codes = गाड़ी में फ़ॉल्ट कोड दर्ज हैं: { $codes }। वर्कशॉप से मतलब पूछिए।
customer-guessed = गाड़ी का कुछ डेटा अंदाज़े से है। इसलिए लेवल कम सटीक पता है।
label-not-confirmed = पुष्टि नहीं हुई
label-vehicle = गाड़ी
label-vin = चेसिस नंबर (VIN)
label-odometer = ओडोमीटर
label-date = कब
label-workshop = वर्कशॉप
label-technician = मैकेनिक
label-fluid = गियर ऑयल
label-batch = डिब्बे पर बैच
label-cost = ख़र्च
sign-technician = मैकेनिक, तारीख़
sign-customer = ग्राहक, तारीख़

## The report: what the next technician reads

for-the-next-technician = अगले मैकेनिक के लिए
label-guessed = गाड़ी के डेटा में अंदाज़ा
guesses-cost = अंदाज़े के साथ ±{ $with } तक पता, बिना ±{ $without } तक।
guess-that-helps-most = सबसे ज़्यादा मदद: { $what }। तब ±{ $within }।
label-recheck = दोबारा जाँच
recheck-compared = छोड़ा { $left }, मिला { $found }: बदलाव { $change }, ±{ $within }।
recheck-agrees = यह दोनों की सटीकता के अंदर है।
recheck-differs = यह दोनों की सटीकता से ज़्यादा है।
recheck-not-comparable = दोनों की तुलना नहीं हो सकती।
label-told-before = पहले की शिकायत
label-told-after = लेवल सेट होने पर
label-level-error = लेवल की ग़लती
level-error-is = { $amount }, ±{ $within } (k = 2); ओवरफ्लो पाइप पर { $height }। प्लस यानी ज़्यादा।
label-band = सही तापमान
band-by = { $low } से { $high }, किससे पढ़ा: { $signal }
label-torques = टॉर्क
as-the-maker-says = जैसा गाड़ी का निर्माता कहे
label-data = गाड़ी का डेटा
label-link = किससे पढ़ा
entry-all-by-people = अडैप्टर नहीं: सब लोगों ने दर्ज किया।
label-readings = रीडिंग
readings-read = { $count }, ज़्यादा से ज़्यादा { $age } ms पुरानी।
readings-told = { $count }, लोगों ने दर्ज कीं।
readings-apart = ज़्यादा से ज़्यादा { $seconds } s का फ़ासला।
readings-pauses = 5 s से लंबे ठहराव: { $count }, सबसे लंबा { $seconds } s।
readings-losses = संपर्क टूटा: { $count } ×।
readings-restarts = प्रोग्राम दोबारा चला: { $count } ×।
readings-known-at-closing = बंद करते समय मानक अनिश्चितता: { $u }।
section-wrong = क्या ग़लत था, और क्या करना है
section-temperature = समय के साथ तापमान
section-budget = लेवल की ग़लती, किससे बनी
section-balance = नापी हुई मात्राएँ
section-codes-and-fluid = फ़ॉल्ट कोड और पुराना तेल
section-old-fluid = पुराना तेल
section-steps = स्टेप
section-told = क्या दर्ज हुआ, और कब
section-on-the-way = बीच में क्या हुआ
section-stops = दिखाई गई चेतावनियाँ
section-photos = फ़ोटो
section-cautions = दिखाई गई सावधानियाँ
budget-cause = वजह
budget-amount = मात्रा
budget-u = मानक अनिश्चितता
budget-together = कुल, ± k = 2 पर
balance-drained = निकाला
balance-filled = भरा
balance-ran-out = बहा
balance-with-parts = पुर्ज़ों के साथ
balance-spilled = गिरा, अंदाज़ से
balance-kept = रखा
balance-expected = बहना चाहिए
balance-closure = बहा, घटा जो बहना था
amount-and-uncertainty = { $amount }, मानक अनिश्चितता { $u }
balance-fresh = नया तेल
balance-waste = बेकार तेल
codes-before = शुरू में फ़ॉल्ट कोड
codes-after = काम के दौरान नए
codes-none-told = गाड़ी ने कोई नहीं बताया
codes-nobody-read = नहीं पढ़े: अडैप्टर नहीं था
old-fluid-not-entered = किसी ने नहीं लिखा कि कैसा दिखा।
state-open = शुरू नहीं
state-started = शुरू
state-done = पूरा
state-failed = ग़लत हुआ
state-undone = वापस लिया
who-under = नीचे वाला
who-inside = अंदर वाला
who-vehicle = गाड़ी
who-person = कोई व्यक्ति
entry-at = { $what }, { $celsius } पर
entry-spilled = गिरा { $amount }, अंदाज़ से।
as-the-data-says = जैसा गाड़ी के डेटा में
entry-kept = रखा { $amount }
entry-level = नापा: आगे { $pitch }, बायाँ { $roll }
entry-corners = ऊँचाइयाँ: आगे { $front }, पीछे { $rear }
entry-air = बाहर की हवा
engine-idling = इंजन आइडल पर है
engine-stopped = इंजन बंद है
entry-below-edge = निचले किनारे से { $depth } नीचे
entry-gauge = गेज { $depth } दिखाता है
entry-confirmed = पुष्टि
entry-selector = सिलेक्टर
entry-photo = फ़ोटो
entry-recheck-of-job = काम की दोबारा जाँच
entry-identifier = गियर ऑयल की पहचान की पुष्टि
entry-leak = रिसाव
entry-alarm = अलार्म
entry-ended-by-hand = हाथ से ख़त्म
entry-remark = टिप्पणी
entry-taken-back = वापस लिया
entries-before = उससे पहले { $count } और, जर्नल में
entries-of-thermometers = थर्मामीटर रीडिंग: { $count }, चित्र में
more-in-the-journal = जर्नल में { $count } और
column-time = समय
column-step = स्टेप
column-state = स्थिति
column-by = किसने
column-what = क्या
journal-range = जर्नल की घटनाएँ { $first } से { $last }। समय { $zone } में।
label-seal = सील
seal-is-checked-by = { $command } दिखाता है कि रिकॉर्ड बदला गया या नहीं।
doubt-unread = घटना { $event } पढ़ी नहीं जा सकती: { $why }।
doubt-changed = घटनाएँ { $first } से { $last } वैसी नहीं हैं जैसी लिखी गईं: ग़ायब या बदली हुई।
plot-no-temperature = कोई तापमान दर्ज नहीं हुआ।
plot-from-to = { $from } से { $to } तक।
plot-was-right = तापमान सही था (धारीदार) मिनट { $from } से { $to } तक।
plot-never-right = तापमान कभी सही नहीं था।
plot-port-was-open = लेवल प्लग मिनट { $from } से { $to } तक खुला था, { $celsius } पर बंद हुआ।
plot-axis = शुरू से मिनट; { $unit }
plot-port-open = खुला
pipe-drawn = ओवरफ्लो पाइप: सही तापमान { $low } से { $high }।
pipe-drawn-closed = ओवरफ्लो पाइप: सही तापमान { $low } से { $high }। { $celsius } पर बंद हुआ।
offer-odometer = ओडोमीटर, इकाई के साथ
offer-technician = काम किसने किया
offer-workshop = कौन-सी वर्कशॉप
offer-fluid = तेल, जैसा डिब्बे पर लिखा
offer-batch = डिब्बे पर बैच
offer-cost = ख़र्च, मुद्रा के साथ

## The board of many bays

bay-is-quiet = यहाँ कोई काम नहीं चल रहा।
bay-is-not-heard = कुछ नहीं आ रहा। जाकर देखिए।
board-empty = { $broker } पर अभी किसी जगह से कुछ नहीं आया।
board-broker-lost = { $broker } से कुछ नहीं आ रहा। यहाँ जो दिखता है वह पुराना है।
board-keys = खोजने के लिए लिखिए। Ctrl-C से बंद।
board-sought = खोज: { $text }

## The plan

plan-title = प्लान: { $sheet }
plan-buy = ख़रीदिए
plan-buy-says = { $count } × { $each } ({ $amount }): { $fluid }
plan-fill = भरिए
plan-fill-says = लगभग { $amount }: { $parts }
plan-one-drain = एक बार निकालना { $amount }
plan-drains = { $count } बार निकालना { $amount }
plan-for-parts = { $amount } फ़िल्टर, कूलर और पैन के लिए
plan-the-extra = अतिरिक्त
plan-hand-in = लगभग { $amount }, जमा करने को
plan-fresh = बाद में नया तेल
plan-at-best = ज़्यादा से ज़्यादा { $percent } %
plan-runs-out = बहेगा
plan-runs-out-says = लगभग { $amount }, { $celsius } पर, अगर लेवल पहले सही था
plan-trickle = पतली धार तक
plan-trickle-says = खोलने के लगभग { $seconds } s बाद: अंदाज़ा है, फ़ैसला नहीं
plan-unknown = बताया नहीं जा सकता
plan-hot = गर्म जगहों में
plan-hot-says = { $low } से { $high }, बाहर { $air } से ऊपर: गाड़ी दिखाती है, या शुरू में दर्ज कीजिए
plan-opens = सही तापमान आता है
plan-opens-says = { $air } पर ठंडे स्टार्ट के { $minutes } बाद: सामान्य कार, दुगुने या आधे तक ग़लत
plan-lasts = सही रहता है
plan-lasts-says = { $minutes }, उतने ही शक के साथ
plan-minutes = { $low } से { $high } min
plan-hot-day = गर्म दिन
plan-day-second-band = आज गर्म जगहों वाली रेंज गिनी जाती है। गाड़ी बाहर की हवा न दिखाए तो शुरू में दर्ज कीजिए।
plan-day-below-second = तेल रेंज के पास से शुरू होता है: सही तापमान जल्दी आता है और कम रहता है। सुबह की ठंडक में शुरू कीजिए। गर्म जगहों वाली रेंज अभी नहीं गिनी जाती।
plan-day-no-second = तेल रेंज के पास से शुरू होता है: सही तापमान जल्दी आता है और कम रहता है। सुबह की ठंडक में शुरू कीजिए। डेटा में गर्म जगहों की रेंज नहीं; निर्माता के पास हो सकती है।
plan-degree = एक डिग्री
plan-degree-falls = बंद करते समय हर { $degree } ज़्यादा पर { $amount }: ठंडा बंद किया तो ज़्यादा तेल, गर्म पर कम
plan-degree-rises = बंद करते समय हर { $degree } ज़्यादा पर { $amount }: ठंडा बंद किया तो कम तेल, गर्म पर ज़्यादा
plan-left-out = छोड़ा गया
plan-leaves-out-slope = रेंज के बाहर डेटा की ढलान कैसे बदलती है, और कहाँ तेल रुकता या छूटता है; फैलाव उसी ढलान में है
plan-leaves-out-thermostat = गर्म होते समय थर्मोस्टैट जो तेल रोकता या छोड़ता है: सिर्फ़ फैलाव गिना है
plan-tilt = झुकाव
plan-tilt-says = आगे 1° ऊपर पर { $pitch }, बायाँ 1° ऊपर पर { $roll }: { $allowed } के अंदर रखिए
plan-not-confirmed = किसी ने पुष्टि नहीं की
plan-before-any-job = { $what }: पुष्टि से पहले कोई काम शुरू नहीं
plan-guessed = अंदाज़े
plan-guess-costs = { $what }: ± में { $amount } जोड़ता है
plan-guess-is-free = { $what }: ± में नहीं गिना
plan-off = चूक की क़ीमत
plan-off-by = कितनी चूक
plan-off-pipe = ओवरफ्लो पाइप पर
plan-off-temperature = तापमान { $by }
plan-off-nose = आगे ऊपर { $by }
plan-off-left = बायाँ ऊपर { $by }
plan-still-right = अब भी सही
plan-too-much = बहुत ज़्यादा
plan-checklist = चेकलिस्ट
plan-at-hand = पास रखिए
plan-beware = सावधान
plan-out-of-order = क्रम से बाहर दर्ज हो सकता है
plan-stop-rules = कब रुकना है, किसी भी स्टेप पर
who-either = दोनों में से कोई
line-exchanges = { $count } बार निकालिए और भरिए। बीच में इंजन चलाकर पोज़िशन बदलिए।
line-selector = { $positions }: हर एक पर { $dwell } s, { $rounds } राउंड
line-look = देखिए: { $look }
line-looks = { $count } बार देखिए, एक के बाद एक।
line-look-number = जाँच { $number }: { $look }
line-wave = हर { $seconds } s की छोटी लहर ज़्यादा तेल नहीं है: दो के बीच देखिए।
line-stand = समतल नहीं: { $how }। नापिए, अंदाज़ नहीं चलेगा।
stand-nose-up = आगे { $degrees } ऊपर
stand-nose-down = आगे { $degrees } नीचे
stand-left-up = बायाँ { $degrees } ऊपर
stand-right-up = दायाँ { $degrees } ऊपर
look-idling = आइडल पर
look-engine-off = इंजन बंद
look-ready-off = READY बंद
look-in-position = { $position } में
look-after = { $seconds } s बाद
look-between = बंद करने के { $from } से { $to } s बाद
look-in-band = सही तापमान पर
sign-thread = ज़्यादा तेल पतली धार तक बहता है
sign-first-drips = पहले सूखा; रेंज के ऊपरी सिरे से पहले टपकता है
sign-drips = बहता है जब तक सिर्फ़ टपके
sign-below-edge = तेल निचले किनारे से { $low } से { $high } नीचे है
sign-at-edge = तेल निचले किनारे पर है
sign-chart = गेज वही दिखाता है जो चार्ट में है
sign-amounts = मात्राएँ सही हैं
look-then-add = बंद, फिर { $amount } और
