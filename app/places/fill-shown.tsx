import { type PlaceFill, percentOf } from '#lib/place/capacity'
import { FillBar } from '#trade/fill-bar'
import { FillGauge } from '#trade/fill-gauge'
import { describeFillDetail } from './words'

/** How full a place is, drawn as what it is known by: its compartments, its things, or its share of put-ups. */
export function FillShown({ fill, keepTo }: { fill: PlaceFill; keepTo?: number }) {
  switch (fill.by) {
    case 'compartments':
      return <FillGauge here={fill.here} out={fill.out} capacity={fill.capacity} />
    case 'things':
      return <FillGauge here={fill.here} out={fill.out} capacity={fill.capacity} noun={fill.sort} />
    case 'put-ups':
    case 'compartments-room':
      return (
        <>
          <FillBar percent={percentOf(fill.fill)} keepTo={keepTo} />
          <p className="quiet">{describeFillDetail(fill)}</p>
        </>
      )
  }
}
