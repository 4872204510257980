/**
 * Two hundred innocent words and sentences, as they stand in remarks, list labels, codes, step names and reasons; written
 * down from memory of the trade. None of them points to anybody. Every second one (odd places) was seen only as a number of false alarms while
 * the list of signs was made.
 */
export const INNOCENT: readonly string[] = `
Right Eye
Left Eye
2026-03-01/4
2026-03-01
List 12
list 2026-11-29 am
Tuesday Morning
Monday list
Theatre 2
Teaching List
Block A
RE1
LE-02
Case 17
C-0017
P2/14
A12
OD 3
OS 4
K12
phaco 44
SICS-031
2026/07
week 12
Own audit, January 2024 to December 2025
Own audit 2023 to 2025
Published series of 55,567 cases
National audit, adjusted
unit figures of 2024
Fellow year
Side Port
Main Incision
Posterior Capsule
Posterior Capsule Tear
Irrigation Aspiration
Cortex Aspiration
Trypan Blue
Red Reflex
Small Pupil
White Cataract
Dense Brown Lens
Floppy Iris
Iris Hooks
Pupil Ring
Capsule Tension Ring
Intraocular Lens
Wound Check
Stop and Chop
Divide and Conquer
Descemet's Membrane
Descemet detachment at the main incision
Zinn's zonule looked loose on the left
Tenon's capsule is thick here
Bowman layer intact
Elschnig pearls polished
Soemmering ring seen
Schlemm's canal not touched
Fuchs dystrophy, more viscoelastic
Marfan habitus, loose zonules
Seidel test negative
Purkinje images used to centre
Sinskey hook for the lens
Cohesive viscoelastic
Barraquer speculum too stiff
Utrata forceps bent
The flap ran out at four o'clock and came back.
I refilled twice before the tear was turned.
Pulled towards the centre instead of along the tangent.
I will look at the edge of the flap before each grasp.
If the edge leaves the red reflex, then I stop and refill.
Refill when the chamber shallows.
Stop at the first pull on the zonules.
Keep the tip in view
Watch the pupil margin
Less water than last time, more turns of the nucleus.
Hydrodissection took three tries because the lens did not turn.
The bag was emptied completely before the tip came out.
Both hands were too far up; the eye rolled down.
Wound too short, iris came to it.
The microscope was out of focus until the second quadrant.
Pupil came down after the first half; hooks next time.
Patient moved once, nothing happened.
patient settled after a word
the patient was deaf, so I tapped the shoulder first
patient head tilted to the left
the nurse handed the lens late
nurse new to the tray
Nurse asked for the lens again
scrub nurse changed half way
sister in charge asked for a pause
Doctor on call took the phone
Mr and Mrs are titles I leave out
my supervisor was beside me
supervisor agreed
Supervisor agreed in person
agreed with my supervisor
agreed with the consultant on the day
discussed with a senior colleague
Discussed with a senior colleague on Friday; will open a second port earlier
reviewed with the team
a colleague advised hooks
consultant took over for the cortex
anaesthetist topped up the block
assisted by the fellow
with a trainee assisting
called for help early
named step in the list
name of the step changed
asked for a second opinion
complaint
claim
inquiry by the health board
Inquiry closed, no further action
Claim settled; may be changed again
working alone, rural hospital
no supervisor in private practice
the course suggested it
Course In Spring
new technique from the course
Machine A
machine 2, second theatre
topical
sub-Tenon's
Sub-Tenon Block
Peribulbar block
General Anaesthesia
Topical Plus Intracameral
percent
mmHg
D
Miss the edge and refill again
Miss nothing at the wound
sister lens of the same power
sir, said nobody
may have been too fast
mark at six o'clock
will try a smaller bite
Will rotate before chopping
Grant access to the bag before filling
Art of the second hand
Rose bengal not used
Hope to see less traction
Chase the edge no further
Young lens, soft nucleus
Long eye, deep chamber
Short eye, shallow chamber
Brown lens, long phaco
Black cataract
White to white 11.5
IOL +21.5 D
axis 175
21.50 D at 92
0.1 ml of 1 mg in 0.1 ml
endothelial count 2450
K 43.25 / 44.00 @ 92
1,200 cases a year
Cumulative energy 12.45
first 20 of 40
3 of 20 cases, 15 %
in 17 of 20 eyes
18 quadrants in 5 cases
Capsulorhexis 5.0 to 5.5 mm
2.2 mm blade
Vordere Kapsel eingerissen
Hintere Kapsel
Kleine Pupille
Linse gedreht, Kern hart
Weicher Kern, wenig Energie
Hornhaut trüb, schlechter Einblick
Der Kern liess sich nicht drehen
Schwester hat die Linse spät gereicht
Herr der Lage bleiben
Pupille enge Stelle, Haken gesetzt
Patientin war ruhig
Chambre antérieure étroite
Capsule postérieure rompue
pupille étroite, crochets
le patient a bougé
la patiente était calme
Pupila pequeña, ganchos
Cápsula posterior intacta
el paciente tosió
Núcleo duro
Catarata Blanca
Capsula posteriore integra
il paziente ha tossito
pupilla stretta
Cápsula posterior íntegra
o paciente mexeu
mareez ko khansi thi
mareez shaant tha
A. then B. in order
step A, then step B
see Method, page 3
OVD Removal
PCO later
PXF, loose zonules
IFIS expected
BSS ran out
AC shallow twice
`
  .trim()
  .split('\n');
