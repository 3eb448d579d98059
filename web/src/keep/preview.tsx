// A picture from the phone's memory on the screen.
import { useEffect, useState } from "preact/hooks";

/** An address for the picture, for as long as it is shown. */
export function useAddress(data: Blob | undefined): string {
  const [url, setUrl] = useState("");
  useEffect(() => {
    if (!data || data.size === 0) return;
    const made = URL.createObjectURL(data);
    setUrl(made);
    return () => URL.revokeObjectURL(made);
  }, [data]);
  return url;
}

export function Preview({ data, name }: { data: Blob; name: string }) {
  const url = useAddress(data);
  return url ? <img class="preview" src={url} alt={name} /> : <span class="preview" role="img" aria-label={name} />;
}
