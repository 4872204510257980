/**
 * Two hundred invented mentions of people, as somebody might write them into a remark, a label or a reason: with a title,
 * or where names stand. Written down from memory of how names look in many cultures; nobody real is meant. Every second
 * one (odd places) was seen only as a number of misses while the list of signs was made: its share is stated by itself.
 */
export const NAMES: readonly string[] = `
Mrs B squeezed a lot
mrs patel could not lie flat
Mr O'Brien, second eye
Mr O’Donoghue asked for the other lens
Ms. Whitcombe-Harris was restless
Dr Fernsby took over at the nucleus
dr. achebe helped with the wound
Prof. Lindqvist advised a larger capsulorhexis
Professor Abernathy looked at the recording
Sister Maloney handed the wrong lens
Miss Tregarth coughed twice
Sir Edmund Vale, dense lens
Lady Ashcombe, small pupil
Rev. Holloway moved his head
Herr Müller hat gehustet
Frau Schöntal, enge Pupille
frau k. war unruhig
Hr. Obermaier, zweites Auge
Fr. Zellweger, harter Kern
Dr. med. Hallbauer assistierte
Prof. Dr. Rautenberg riet zur Iris-Haken
Oberarzt Lemke hat übernommen
OA Brandstetter hat den Kern entfernt
Schwester Annegret reichte das Messer
Pfleger Thorben fehlte
Mme Delacroix a bougé
Mlle Fontanel très anxieuse
M. Beaulieu, pupille étroite
Monsieur Lacombe a toussé
Madame d'Harcourt, noyau dur
docteur Vasseur a repris la main
Sra. Villalobos se movió
Sr. Echeverría, catarata blanca
Señora Núñez tosió dos veces
don Anselmo Quiroga, pupila pequeña
doña Remedios no pudo acostarse
Dra. Olmedo terminó el caso
enfermera Lucía cambió la lente
Sig. Bertolucci ha tossito
sig.ra Pellegrini, pupilla stretta
Signora De Santis molto agitata
dott. Marchetti ha completato
dott.ssa Rinaldi mi ha aiutato
suor Agnese ha preparato il tavolo
Dona Conceição mexeu a cabeça
Seu Raimundo tossiu
Sr. Gonçalves, núcleo duro
Sra Albuquerque, pupila pequena
enfermeira Jacinta trocou a lente
Shri Raghunathan ko khansi thi
Kumari Lakshmi moved during hydrodissection
shrimati yashoda hil rahi thi
Sharma ji ne haath hilaya
Gupta-ji was restless
Dr Subramaniam took the last step
doctor saab Qureshi finished
Begum Shahnaz, white cataract
Janab Aslam Siddiqui, second eye
Sardar Gurpreet Singh, hard nucleus
Mataji Harbhajan could not hear
Babu Ramcharan coughed
Tanaka-san was calm
Yamashita san coughed
Dr. Kobayashi-sensei advised hooks
田中さん second eye
王先生 helped
李女士 small pupil
Mr Nguyen Van Thanh, dense
Bà Trần Thị Hoa moved
Ông Phạm Quang could not lie flat
Khun Somchai coughed
Ibu Sulastri restless
Encik Rahimi, white cataract
Puan Zubaidah second eye
Kim Min-jun ssi coughed
Mehmet Bey, hard nucleus
Ayşe Hanım restless
Sayın Karaosman, ikinci göz
Agha Rostami, small pupil
Khanom Parvaneh coughed
Sheikh Al-Mansouri, white cataract
Haji Abdulkarim, dense
Ustadh Bakari, small pupil
Umm Khalid moved
السيدة فاطمة تحركت
الدكتور حسان ساعد
Pan Kowalczyk, small pupil
Pani Wiśniewska coughed
paní Dvořáková restless
pan Hrubeš, second eye
Gospođa Jovanović coughed
Kyrios Papadakis, small pupil
Kyria Eleftheria moved
Госпожа Иванова кашляла
Иванов Пётр Сергеевич, второй глаз
Dhr. van der Meulen hoestte
Mevrouw De Graaf bewoog
Fru Lindström, small pupil
Fröken Åkesson coughed
Rouva Virtanen, dense
Herra Koskela moved
Oga Chukwuemeka coughed
Chief Okonkwo, second eye
Mama Adaeze restless
Alhaji Danladi, hard nucleus
Hajiya Rakiya coughed
Mzee Kipchoge, small pupil
Baba Olawale, dense
Ato Tesfaye, white cataract
Weizero Almaz moved
Whaea Aroha, small pupil
patient John Fairweather, dense
patient: Harriet Oakshott
Patient Quimby coughed
the patient, Eleanor Wragg, moved
patient's name is Tobias Flint
name: Margit Halvorsen
Name Oyelaran, second eye
named Thibodeaux
called Winnifred
Patientin Hildegard Vossler, unruhig
Patient Grünwald, enge Pupille
patiente Geneviève Marchand
paciente Ignacio Belmonte
paziente Fiorella Gandolfi
paciente Joaquim Teixeira
mareez Abdul Rashid
with Farquhar assisting
assistant Penhaligon
assisted by Rosalind Frame
my fellow Castellanos did the cortex
registrar Mukherjee took over
consultant Blackwood watched
supervisor Thackeray agreed
agreed with Hathersage
supervised by Ngozi Eze
anaesthetist Drummond topped up the block
anaesthetic by Kjellberg
block given by Radcliffe
scrub nurse Ottoline was new
colleague Vandermeer advised it
surgeon Petrossian showed it
operated by Kwabena Asante
discussed with Sinclair
as Hargreaves does it
reviewed with Thornbury
asked Kirkbride for help
told by Ravensworth
thanks to Bartholomew
after the talk of Professor Zsigmondy
Anna Kowalska, second eye
Maria Santos Oliveira
Mohammed Al-Farsi
Fatima Zahra Benali
Carlos Ibáñez Rueda
Olufemi Adeyemi
Siobhan Gallagher
Rajesh Kulkarni
Priya Venkatesan
Nguyen Thi Mai
Chen Wei-Ling
Park Ji-hoon
Yuki Nakagawa
Dmitri Volkonsky
Katarzyna Nowicka
Lars Holmqvist
Ingrid Sørensen
Wanjiku Kamau
Thabo Mokoena
Amina Bello
Nino Kvaratskheliani
Zoltán Szentesi
Ioana Dumitrescu
Kalinda Perera
Bjørn Eriksstad
Hone Parata
Leilani Kahananui
Sunniva Rønning
J. Smithers
J.R. Halloway
Halloway, J.
B. K. Chatterjee
A. Papadopoulou, small pupil
k. oyelowo, second eye
Smithers J, second eye
SMITHERS, Joan
JOAN SMITHERS
Smithers, Joan
O'Connell, Maeve
d'Souza, Ignatius
McAllister Fiona
Mrs. A., second eye
Mr X.Y. coughed
Frau M. aus Zimmer
Herr S.
Dr. L. watched
Mme T. a bougé
Sra. P. tosió
Mr P’s wife phoned
Mrs Featherstonehaugh's daughter
`
  .trim()
  .split('\n');

/** Forty numbers as records, insurers and telephones have them, in text; invented. */
export const NUMBERS: readonly string[] = `
MRN 48213
mrn: 0048213
hospital no 4821
Hospital number H48213
hosp. no. 77120
NHS 943 476 5919
943-476-5919
9434765919
patient id 48213
pt no 771
record number 3312
folder 20194
file no. 88213
chart 44120
UHID 2019/44120
CR No. 1182
IP No 3391
OPD no 8812
reg. no. 5521
Fallnummer 2291837
Pat.-Nr. 4711
Patientennummer 99121
Aktenzeichen 4482
dossier n° 3391
IPP 80012
NIP 8001234
historia clínica 48213
NHC 48213
expediente 2231
cartella 33821
prontuário 12345
K1234567
AB123456C
12345678
٤٨٢١٣٩٩
४८२१३९९
1234 5678 9012
+44 7700 900123
(0151) 496 0123
A12-345678
`
  .trim()
  .split('\n');
