"""Total least squares of Lantern Green: marks, spots' places and the ground's plane as unknowns of one problem.

Prints the plane with its covariance beside the plan's. The figures stand in docs/methods/ground.md (SciPy 1.17.1,
NumPy 2.4.6). Nothing of the fit comes from Mastwright's engine; the plan only gives the start and what to compare.

Run in the project's folder:
mastwright plan src-tauri/engine/src/demo/lantern-green.job.json --json > plan.json
python3 tests/published/scripts/ground_total_scipy.py plan.json
"""

import sys
import json, math, numpy as np
from scipy.optimize import least_squares
add=-13.557385147634069
job=json.load(open('src-tauri/engine/src/demo/lantern-green.job.json'));Y=job['yard']
s=lambda t: math.hypot(.01,.001*t)
w=lambda d:(d+180)%360-180
sl=[(x['bearing_deg']+add,x['slope_deg']) for x in Y['slopes']]
# plain slope fit for effective variance
A=np.array([[math.sin(math.radians(b)),math.cos(math.radians(b))] for b,_ in sl]); v=np.array([math.tan(math.radians(a)) for _,a in sl]); sg=np.array([math.radians(.3)*(1+t*t) for t in v])
g0=np.linalg.lstsq(A/sg[:,None],v/sg,rcond=None)[0]
eff=[]
for b,a in sl:
    t=g0[0]*math.sin(math.radians(b))+g0[1]*math.cos(math.radians(b)); d=g0[0]*math.cos(math.radians(b))-g0[1]*math.sin(math.radians(b))
    eff.append(math.hypot(.3, d/(1+t*t)*2))
print(eff)
def f(x):
    h0,ge,gn=x[:3];P={'A':(0,0),'B':x[3:5],'C':x[5:7]}; S=[x[7+2*i:9+2*i] for i in range(5)]
    def tape(a,b):
        e,n=b[0]-a[0],b[1]-a[1]; return math.sqrt(e*e+n*n+(ge*e+gn*n)**2)
    br=lambda a,b: math.degrees(math.atan2(b[0]-a[0],b[1]-a[1]))
    out=[]
    def fix(F,p):
        if F['by']=='bearing_tape':
            out.append(w(br(P[F['from']],p)-F['bearing_deg']-add)/2); out.append((tape(P[F['from']],p)-F['tape_m'])/s(F['tape_m']))
        elif F['by']=='two_tapes':
            out.append((tape(P[F['from_a']],p)-F['tape_a_m'])/s(F['tape_a_m'])); out.append((tape(P[F['from_b']],p)-F['tape_b_m'])/s(F['tape_b_m']))
        elif F['by']=='coordinates':
            out.append((p[0]-F['east_m'])/.25); out.append((p[1]-F['north_m'])/.25)
    for m in Y['marks'][1:]: fix(m['at'],P[m['id']])
    m=Y['measurements'][0]; out.append((tape(P[m['from']],P[m['to']])-m['tape_m'])/s(m['tape_m']))
    for i,h in enumerate(Y['spot_heights']):
        fix(h['at'],S[i]); out.append((h['height_m']-h0-ge*S[i][0]-gn*S[i][1])/(h.get('sigma_m') or .01))
    out.append(h0/.01)
    for (b,a),e in zip(sl,eff):
        t=math.tan(math.radians(a)); out.append((t-ge*math.sin(math.radians(b))-gn*math.cos(math.radians(b)))/(math.radians(e)*(1+t*t)))
    return np.array(out)
plan=json.load(open(sys.argv[1]));plan=plan.get('plan',plan)
pts={q['path']:(q['east_m'],q['north_m']) for q in plan['points']}
x0=[0,g0[0],g0[1],*pts['/yard/marks/1/at'],*pts['/yard/marks/2/at']]
for i in range(5): x0+=list(pts[f'/yard/spot_heights/{i}/at'])
r=least_squares(f,x0,xtol=1e-15,ftol=1e-15,gtol=1e-15)
C=np.linalg.inv(r.jac.T@r.jac)
print(r.x[:3], 2*r.cost, len(f(r.x))-len(r.x)); print(C[1,1]*1e6,C[2,2]*1e6,C[1,2]*1e6)
G=plan['ground']; print(G['gradient_east'],G['gradient_north'],G['gradient_covariance'])
gr=math.hypot(r.x[1],r.x[2]); u=r.x[1:3]/gr; print('slope',math.degrees(math.atan(gr)),1.96*math.degrees(math.sqrt(u@C[1:3,1:3]@u)/(1+gr*gr)), G['slope_deg']); n=np.array([-u[1],u[0]]); print('bearing',math.degrees(1.96*math.sqrt(n@C[1:3,1:3]@n)/gr), G['fall_bearing_deg'], math.degrees(math.atan2(-r.x[1],-r.x[2]))%360,G['fall_half_width_95_deg'], plan['north']['add_to_reading_half_width_95_deg'])
print(plan['points'][0])
