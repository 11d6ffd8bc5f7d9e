import { useQuery } from '@tanstack/react-query';

/** Text as a QR code: dark on light in both colour schemes, as readers expect it. */
export function Qr({ value, label }: { value: string; label: string }) {
  const { data } = useQuery({
    queryKey: ['qr', value],
    queryFn: async () => {
      const { toDataURL } = await import('qrcode');
      return toDataURL(value, { margin: 3, width: 240 });
    },
    staleTime: Infinity,
  });
  return data === undefined ? null : <img src={data} alt={label} width={240} height={240} />;
}
